/* lookup_wire.c - `bayleaf size` for what a wire ends in. */
#include "base/arena.h"
#include "calc/contact.h"
#include "calc/fuse.h"
#include "calc/galvanic.h"
#include "command/answer.h"

#include <math.h>
#include <string.h>

static int read_wire(const char *text, const char *conductor,
                     const struct wire_size **size) {
    enum wire_system system =
        conductor == NULL ? WIRE_UNDECLARED
                          : size_system_find(conductor, strlen(conductor));
    if (conductor != NULL && system == WIRE_UNDECLARED)
        return command_usage("unknown conductor '%s'", conductor);
    switch (size_read(text, strlen(text), system, size)) {
    case SIZE_FOUND:
        return STATUS_GOOD;
    case SIZE_AMBIGUOUS:
        return command_usage("'%s' is a size of several systems; add "
                             "conductor=\"AWG stranded\"",
                             text);
    case SIZE_UNREADABLE:
    case SIZE_UNKNOWN:
    case SIZE_MISMATCH:
        break;
    }
    return command_usage("unknown wire size '%s'", text);
}

int lookup_crimp(const struct lookup *l, const struct request *r,
                 const char *const *value) {
    struct answer a;
    int status = answer_begin(&a, l, r, value);
    const struct wire_size *size = NULL;
    if (status == STATUS_GOOD)
        status = read_wire(value[0], value[1], &size);
    if (status != STATUS_GOOD)
        return status;
    answer_add(&a, "size", (struct value){.type = VALUE_SIZE, .size = size});
    const struct crimp *crimp = crimp_for(size);
    answer_text(&a, "colour", crimp == NULL ? "none" : crimp->colour);
    if (crimp != NULL)
        answer_text(&a, "range", crimp->gauges);
    for (int p = 0; p < PULL_STANDARDS; p++) {
        struct pull pull;
        if (!crimp_pull((enum pull_standard)p, size, &pull))
            continue;
        const char *name = arena_printf(
            r->arena, "pull, %s%s", pull_standard_name((enum pull_standard)p),
            pull.verified ? "" : ", unverified");
        answer_number(&a, name, pull.force, "N");
    }
    const struct tab *tab;
    for (size_t i = 0; (tab = tab_at(i)) != NULL; i++) {
        const char *row;
        double ampere = tab_current(tab, size, false, &row);
        answer_number(&a, arena_printf(r->arena, "tab %s", tab->name), ampere,
                      "A");
    }
    a.source = tab_source();
    return answer_end(&a);
}

int lookup_tab(const struct lookup *l, const struct request *r,
               const char *const *value) {
    struct answer a;
    int status = answer_begin(&a, l, r, value);
    const struct wire_size *size = NULL;
    if (status == STATUS_GOOD)
        status = read_wire(value[1], value[2], &size);
    if (status != STATUS_GOOD)
        return status;
    const struct tab *tab = tab_find(value[0], strlen(value[0]));
    if (tab == NULL)
        return command_usage("unknown tab '%s'; 6.3 mm, 4.8 mm, 2.8 mm, ...",
                             value[0]);
    const char *row = NULL;
    double steady = tab_current(tab, size, false, &row);
    if (isnan(steady))
        return command_usage("UL 310 has no figure for %s on this tab",
                             size->label);
    answer_text(&a, "tab", tab->name);
    answer_text(&a, "in inches", tab->inch);
    answer_text(&a, "row", row);
    answer_number(&a, "steady", steady, "A");
    answer_number(&a, "intermittent", tab_current(tab, size, true, &row), "A");
    a.source = tab_source();
    return answer_end(&a);
}

int lookup_stud(const struct lookup *l, const struct request *r,
                const char *const *value) {
    struct answer a;
    int status = answer_begin(&a, l, r, value);
    if (status != STATUS_GOOD)
        return status;
    const struct stud *s = stud_find(value[0], strlen(value[0]));
    if (s == NULL)
        return command_usage("unknown stud '%s'; M4 to M16", value[0]);
    answer_text(&a, "stud", s->name);
    answer_number(&a, "pressed by it", s->clamped, "A");
    answer_number(&a, "through brass", s->through, "A");
    if (!isnan(s->hole))
        answer_length(&a, "hole of the ring", s->hole, false);
    a.source = s->source;
    return answer_end(&a);
}

int lookup_fuse_style(const struct lookup *l, const struct request *r,
                      const char *const *value) {
    struct answer a;
    int status = answer_begin(&a, l, r, value);
    if (status != STATUS_GOOD)
        return status;
    const struct fuse_style *s = fuse_style_find(value[0], strlen(value[0]));
    if (s == NULL) {
        struct buf b = buf_in(r->arena);
        for (size_t i = 0; fuse_style_at(i) != NULL; i++)
            buf_printf(&b, "%s%s", i == 0 ? "" : ", ", fuse_style_at(i)->name);
        return command_usage("unknown style '%s'; %s", value[0], buf_cstr(&b));
    }
    answer_text(&a, "form", s->form);
    for (size_t i = 0; i < s->rating_count; i++)
        answer_text(&a, arena_printf(r->arena, "%g A", s->rating[i].amp),
                    s->rating[i].colour == NULL ? "as its maker's"
                                                : s->rating[i].colour);
    answer_number(&a, "breaks", s->interrupt, "A");
    answer_number(&a, "at", s->interrupt_volt, "V");
    answer_number(&a, "coldest", s->coldest, "degC");
    answer_number(&a, "hottest", s->hottest, "degC");
    a.source = s->source;
    return answer_end(&a);
}

int lookup_ground_pair(const struct lookup *l, const struct request *r,
                       const char *const *value) {
    struct answer a;
    int status = answer_begin(&a, l, r, value);
    if (status != STATUS_GOOD)
        return status;
    const struct metal *one = metal_find(value[0], strlen(value[0]));
    const struct metal *two = metal_find(value[1], strlen(value[1]));
    const char *place = value[2] == NULL ? "harsh" : value[2];
    const struct exposure *exposure = exposure_find(place, strlen(place));
    if (one == NULL || two == NULL)
        return command_usage("unknown metal '%s'", value[one == NULL ? 0 : 1]);
    if (exposure == NULL)
        return command_usage("unknown exposure '%s'; harsh, normal, controlled",
                             place);
    struct galvanic_pair pair = galvanic_compare(one, two, exposure);
    answer_number(&a, "difference", pair.difference, "V");
    answer_text(&a, "wastes",
                pair.wastes == NULL ? "neither" : pair.wastes->name);
    answer_number(&a, "limit", exposure->most, "V");
    answer_add(&a, "allowed",
               (struct value){.type = VALUE_TRUTH, .truth = pair.allowed});
    a.source = metal_source();
    return answer_end(&a);
}

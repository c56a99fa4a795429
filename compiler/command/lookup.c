/* lookup.c - `bayleaf size` for what is no block.
 *
 * Quantities are read by the source language itself: they become definitions of
 * a guide in memory, so that every spelling, tolerance and message is the same.
 */
#include "command/lookup.h"

#include "base/arena.h"
#include "base/diag.h"
#include "calc/contact.h"
#include "calc/galvanic.h"
#include "calc/thread.h"
#include "calc/torque.h"
#include "command/result.h"
#include "source/read.h"
#include "source/tree.h"
#include "stages.h"
#include "values/figure.h"
#include "values/range.h"
#include "values/requirement.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Results in the order in which they were added. */
struct answer {
    const struct request *r;
    struct arena *arena;
    struct compile c;
    struct values *values;
    struct quantity_maker maker;
    struct named *list;
    size_t count, room;
    const char *source;
};

static struct named *add(struct answer *a, const char *name,
                         struct value value) {
    if (a->count == a->room) {
        size_t room = a->room == 0 ? 8 : a->room * 2;
        a->list =
            arena_grow(a->arena, a->list, a->count, room, sizeof *a->list);
        a->room = room;
    }
    struct named *n = &a->list[a->count++];
    n->name = text_of(name);
    n->by_variant = arena_alloc(a->arena, 1, sizeof *n->by_variant);
    n->by_variant[0] = value;
    n->computed = true;
    return n;
}

static void add_text(struct answer *a, const char *name, const char *text) {
    add(a, name, (struct value){.type = VALUE_TEXT, .text = text_of(text)});
}

static void add_quantity(struct answer *a, const char *name,
                         struct quantity *q) {
    add(a, name, (struct value){.type = VALUE_QUANTITY, .quantity = q});
}

static void add_number(struct answer *a, const char *name, double si,
                       const char *unit) {
    const struct unit *u = unit_find(unit, strlen(unit));
    if (!isnan(si))
        add_quantity(a, name,
                     quantity_root(&a->maker, ROOT_TABLE, si,
                                   (struct ends){si, si}, u->dim, u));
}

/* Thread dimensions to a thousandth of a millimetre, as tables give them. */
static void add_length(struct answer *a, const char *name, double si,
                       bool inch) {
    const struct unit *u = inch ? unit_find("in", 2) : unit_find("mm", 2);
    struct quantity *q = quantity_root(&a->maker, ROOT_TABLE, si,
                                       (struct ends){si, si}, u->dim, u);
    q->decimals = inch ? 4 : 3;
    add_quantity(a, name, q);
}

static int finish(struct answer *a) {
    struct results *results = a->r->json ? result_begin() : NULL;
    for (size_t i = 0; i < a->count; i++) {
        const struct named *n = &a->list[i];
        if (results != NULL) {
            result_value(results, a->values, n, 0);
            continue;
        }
        printf("%-16.*s ", (int)n->name.len, n->name.start);
        figure_write(stdout,
                     values_print(a->values, a->arena, n, 0, PRINT_RANGE));
        putchar('\n');
    }
    if (results != NULL)
        result_end(results, stdout);
    else if (a->source != NULL)
        printf("source: %s\n", a->source);
    return STATUS_GOOD;
}

/* The inputs that are quantities, through the source language. */
static struct source *write_values(const struct lookup *l,
                                   const struct request *r,
                                   const char *const *value) {
    enum { HEAD = 9 };
    const char **name =
        arena_alloc(r->arena, HEAD + sizeof l->inputs / sizeof l->inputs[0] + 2,
                    sizeof(*name));
    size_t line = HEAD;
    struct buf b = buf_in(r->arena);
    buf_puts(&b, "# One look-up\n\n```guide\nid: size\nrevision: 1\nstatus: "
                 "draft\n```\n\n```values\n");
    for (size_t i = 0; l->inputs[i] != NULL; i++)
        if (value[i] != NULL && l->units[i] != NULL) {
            buf_printf(&b, "input.%zu = %s\n", i + 1, value[i]);
            name[line++] = l->inputs[i];
        }
    buf_puts(&b, "```\n");
    struct source *src = place_source(r->arena, "size", buf_as_text(&b));
    src->line_name = name;
    return src;
}

static const struct value *input_value(const struct answer *a, size_t index) {
    const char *name = arena_printf(a->arena, "input.%zu", index + 1);
    for (size_t i = 0; i < values_count(a->values); i++) {
        const struct named *n = values_at(a->values, i);
        if (text_is(n->name, name))
            return &n->by_variant[0];
    }
    return NULL;
}

static const struct quantity *input(const struct answer *a, size_t index) {
    const struct value *v = input_value(a, index);
    return v != NULL && v->type == VALUE_QUANTITY ? v->quantity : NULL;
}

static int begin(struct answer *a, const struct lookup *l,
                 const struct request *r, const char *const *value) {
    *a = (struct answer){.r = r, .arena = r->arena};
    a->c = (struct compile){.arena = r->arena,
                            .diags = diag_new(r->arena),
                            .single = true,
                            .library = r->root == NULL ? "." : r->root};
    const struct guide *g = source_read_made(&a->c, write_values(l, r, value));
    a->values = values_evaluate(&a->c, g);
    a->maker = requirement_maker(a->values);
    diag_print(a->c.diags, stderr, r->colour);
    int status = diag_status(a->c.diags);
    for (size_t i = 0; status == STATUS_GOOD && l->inputs[i] != NULL; i++) {
        const char *unit = l->units[i];
        if (value[i] == NULL || unit == NULL || unit[0] == '\0')
            continue;
        const struct quantity *q = input(a, i);
        const struct unit *u = unit_find(unit, strlen(unit));
        if (q == NULL || !dim_same(q->dim, u->dim)) {
            char name[UNIT_TEXT];
            status = command_usage("%s wants %s", l->inputs[i],
                                   dim_name(u->dim, name));
        }
    }
    return status;
}

static int run_convert(const struct lookup *l, const struct request *r,
                       const char *const *value) {
    struct answer a;
    int status = begin(&a, l, r, value);
    if (status != STATUS_GOOD)
        return status;
    const struct quantity *q = input(&a, 0);
    const struct value *v = input_value(&a, 0);
    if (v != NULL && v->type == VALUE_SIZE) {
        const struct unit *area = unit_find("mm2", 3);
        q = quantity_root(&a.maker, ROOT_TABLE, v->size->area,
                          (struct ends){v->size->area, v->size->area},
                          area->dim, area);
    }
    if (q == NULL)
        return command_usage("'%s' is no quantity and no wire size", value[0]);
    struct unit *to = arena_alloc(r->arena, 1, sizeof *to);
    char *texts = arena_alloc(r->arena, 2, UNIT_TEXT);
    const struct unit *known = unit_find(value[1], strlen(value[1]));
    if (known != NULL)
        *to = *known;
    else if (!unit_compose(value[1], strlen(value[1]), to, texts,
                           texts + UNIT_TEXT))
        return command_usage("unknown unit '%s'", value[1]);
    if (!dim_same(q->dim, to->dim)) {
        char from[UNIT_TEXT], into[UNIT_TEXT];
        return command_usage("%s is %s, %s is %s", value[0],
                             dim_name(q->dim, from), value[1],
                             dim_name(to->dim, into));
    }
    const struct unit *from = figure_unit(q);
    struct quantity *result = quantity_root(&a.maker, ROOT_TABLE, q->nominal,
                                            range_ends(q), q->dim, to);
    if (q->decimals >= 0 && from != NULL)
        result->decimals = figure_like(q, from, to) + 1;
    add_quantity(&a, "result", result);
    return finish(&a);
}

static int run_thread(const struct lookup *l, const struct request *r,
                      const char *const *value) {
    struct answer a;
    int status = begin(&a, l, r, value);
    if (status != STATUS_GOOD)
        return status;
    struct thread t;
    switch (thread_read(value[0], strlen(value[0]), &t)) {
    case THREAD_FOUND:
        break;
    case THREAD_UNREADABLE:
        return command_usage("'%s' is no thread; write M8 x 1.25, 5/16-18 or "
                             "#10-32",
                             value[0]);
    case THREAD_PITCH_MISSING:
        return command_usage("'%s': coarse and fine exist; write the pitch",
                             value[0]);
    case THREAD_UNKNOWN:
        return command_usage("'%s': no standard has this pitch at this "
                             "diameter",
                             value[0]);
    case THREAD_SERIES_WRONG:
        return command_usage("'%s': this pitch belongs to another series",
                             value[0]);
    }
    add_text(&a, "thread", arena_copy(r->arena, t.name, strlen(t.name)));
    add_length(&a, "diameter", t.diameter, t.unified);
    add_length(&a, "pitch", t.pitch, t.unified);
    add_length(&a, "pitch diameter", t.pitch_diameter, t.unified);
    add_length(&a, "minor diameter", t.minor, t.unified);
    add_length(&a, "root diameter", t.root, t.unified);
    add_number(&a, "stress area", t.stress_area, t.unified ? "in2" : "mm2");
    a.source = t.unified ? "ASME B1.1" : "ISO 68-1, ISO 724, ISO 898-1";
    return finish(&a);
}

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

static int run_crimp(const struct lookup *l, const struct request *r,
                     const char *const *value) {
    struct answer a;
    int status = begin(&a, l, r, value);
    const struct wire_size *size = NULL;
    if (status == STATUS_GOOD)
        status = read_wire(value[0], value[1], &size);
    if (status != STATUS_GOOD)
        return status;
    add(&a, "size", (struct value){.type = VALUE_SIZE, .size = size});
    const struct crimp *crimp = crimp_for(size);
    add_text(&a, "colour", crimp == NULL ? "none" : crimp->colour);
    if (crimp != NULL)
        add_text(&a, "range", crimp->gauges);
    for (int p = 0; p < PULL_STANDARDS; p++) {
        struct pull pull;
        if (!crimp_pull((enum pull_standard)p, size, &pull))
            continue;
        const char *name = arena_printf(
            r->arena, "pull, %s%s", pull_standard_name((enum pull_standard)p),
            pull.verified ? "" : ", unverified");
        add_number(&a, name, pull.force, "N");
    }
    const struct tab *tab;
    for (size_t i = 0; (tab = tab_at(i)) != NULL; i++) {
        const char *row;
        double ampere = tab_current(tab, size, false, &row);
        add_number(&a, arena_printf(r->arena, "tab %s", tab->name), ampere,
                   "A");
    }
    a.source = tab_source();
    return finish(&a);
}

static int run_extension(const struct lookup *l, const struct request *r,
                         const char *const *value) {
    struct answer a;
    int status = begin(&a, l, r, value);
    if (status != STATUS_GOOD)
        return status;
    const struct unit *degree = unit_find("deg", 3);
    const struct calculation *c = extension_calculation(EXTENSION_SETTING);
    const struct quantity *angle = input(&a, 3);
    const struct quantity *of[] = {
        input(&a, 0), input(&a, 1), input(&a, 2),
        angle != NULL ? angle
                      : quantity_exact(&a.maker, 0, degree->dim, degree)};
    struct quantity *setting = quantity_call(&a.maker, c, NULL, of);
    setting->unit = of[0]->unit;
    if (isnan(setting->nominal))
        return command_usage("extension: outside its validity: %s",
                             c->validity);
    add_quantity(&a, "setting", setting);
    a.source = c->source;
    return finish(&a);
}

static int run_ground_pair(const struct lookup *l, const struct request *r,
                           const char *const *value) {
    struct answer a;
    int status = begin(&a, l, r, value);
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
    add_number(&a, "difference", pair.difference, "V");
    add_text(&a, "wastes", pair.wastes == NULL ? "neither" : pair.wastes->name);
    add_number(&a, "limit", exposure->most, "V");
    add(&a, "allowed",
        (struct value){.type = VALUE_TRUTH, .truth = pair.allowed});
    a.source = metal_source();
    return finish(&a);
}

static const struct lookup lookups[] = {
    {"convert",
     {"value", "to"},
     {"", NULL},
     "value, to",
     "a quantity in another unit",
     run_convert},
    {"thread",
     {"thread"},
     {NULL},
     "thread",
     "diameters and stress area of a screw thread",
     run_thread},
    {"crimp",
     {"size", "conductor"},
     {NULL, NULL},
     "size",
     "colour, pull-out force and tabs for a wire",
     run_crimp},
    {"extension",
     {"torque", "wrench length", "extension", "extension angle"},
     {"N.m", "m", "m", "deg"},
     "torque, wrench-length, extension",
     "what a wrench is set to with an extension",
     run_extension},
    {"ground-pair",
     {"metal", "other", "exposure"},
     {NULL, NULL, NULL},
     "metal, other",
     "two metals in one joint: which wastes away",
     run_ground_pair},
};

enum { LOOKUPS = sizeof lookups / sizeof lookups[0] };

const struct lookup *lookup_find(const char *name) {
    for (size_t i = 0; i < LOOKUPS; i++)
        if (strcmp(lookups[i].name, name) == 0)
            return &lookups[i];
    return NULL;
}

const struct lookup *lookup_at(size_t index) {
    return index < LOOKUPS ? &lookups[index] : NULL;
}

static bool same_key(const char *name, const char *word, size_t len) {
    if (strlen(name) != len)
        return false;
    for (size_t i = 0; i < len; i++)
        if (name[i] != word[i] && !(name[i] == ' ' && word[i] == '-'))
            return false;
    return true;
}

static int take_word(const struct lookup *l, const char *word,
                     const char **value) {
    const char *equals = strchr(word, '=');
    if (equals == NULL || equals == word)
        return command_usage("'%s' is not SETTING=VALUE", word);
    for (const char *s = word; *s != '\0'; s++)
        if ((unsigned char)*s < 0x20)
            return command_usage("a value stands on one line");
    size_t len = (size_t)(equals - word);
    for (size_t i = 0; l->inputs[i] != NULL; i++)
        if (same_key(l->inputs[i], word, len)) {
            value[i] = equals + 1;
            return STATUS_GOOD;
        }
    return command_usage("%s has no setting '%.*s'; it wants %s", l->name,
                         (int)len, word, l->wanted);
}

static size_t count_wanted(const struct lookup *l) {
    size_t commas = 1;
    for (const char *s = l->wanted; *s != '\0'; s++)
        commas += *s == ',';
    return commas;
}

int lookup_run(const struct lookup *l, const struct request *r) {
    const char *value[8] = {NULL};
    for (size_t i = 1; i < r->word_count; i++) {
        int status = take_word(l, r->word[i], value);
        if (status != STATUS_GOOD)
            return status;
    }
    for (size_t i = 0; i < count_wanted(l); i++)
        if (value[i] == NULL)
            return command_usage("%s wants %s", l->name, l->wanted);
    return l->run(l, r, value);
}

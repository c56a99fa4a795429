/* terminals.c - whether a guide lists a terminal for each end of its wires. */
#include "layout/terminals.h"

#include "base/arena.h"
#include "base/diag.h"
#include "calc/size.h"

#include <stdlib.h>

/* "10AWG" is 10 AWG. */
static bool same_size(struct text a, struct text b) {
    size_t i = 0, k = 0;
    for (;;) {
        while (i < a.len && a.start[i] == ' ')
            i++;
        while (k < b.len && b.start[k] == ' ')
            k++;
        if (i == a.len || k == b.len)
            return i == a.len && k == b.len;
        if (a.start[i++] != b.start[k++])
            return false;
    }
}

static bool crimps(const struct part *p, const char *size) {
    const struct cell *cell = partlist_cell(p, "crimps");
    struct text rest = cell == NULL ? (struct text){NULL, 0} : cell->text, one;
    while (rest.len > 0 && text_next_part(&rest, ',', &one))
        if (same_size(one, text_of(size)))
            return true;
    return false;
}

/* A size that no system has is a slip. */
static void check_sizes(struct leaf *l, const struct part *p) {
    const struct cell *cell = partlist_cell(p, "crimps");
    struct text rest = cell == NULL ? (struct text){NULL, 0} : cell->text, one;
    while (rest.len > 0 && text_next_part(&rest, ',', &one)) {
        const struct wire_size *size;
        struct text t = text_trim(one);
        enum size_found found =
            size_read(t.start, t.len, WIRE_UNDECLARED, &size);
        if (found == SIZE_UNREADABLE || found == SIZE_UNKNOWN)
            diag_add(l->composer.diags, DIAG_SIZE_UNKNOWN, cell->at,
                     "'%.*s'; a size is written 10 AWG, SAE 10 or 6 mm2",
                     (int)t.len, t.start);
    }
}

/* What the guide lists of it for one variant. */
static double number_in(struct leaf *l, const struct part *p, size_t variant) {
    double sum = 0;
    variant_set one = (variant_set)1 << variant;
    for (size_t i = 0; i < p->row_count; i++) {
        const struct stock_row *r = &p->rows[i];
        const char *q =
            (partlist_variants(l, r->row) & one) == 0
                ? NULL
                : values_print_cell(l->values, l->composer.arena, r->block,
                                    r->row, "quantity", one);
        sum += q == NULL ? 0 : strtod(q, NULL);
    }
    return sum;
}

static double listed_for(struct leaf *l, const struct parts *all,
                         const struct wire_ends *e, size_t variant) {
    double sum = 0;
    for (size_t i = 0; i < all->count; i++)
        if (crimps(&all->part[i], e->size->label))
            sum += number_in(l, &all->part[i], variant);
    return sum;
}

/* Whether the guide lists anything for a size, be it for one variant. */
static bool is_listed(struct leaf *l, const struct parts *all,
                      const struct wire_ends *e) {
    const struct variant *list;
    size_t variants = values_variants(l->values, &list);
    double listed = 0;
    for (size_t k = 0; k < variants; k++)
        if ((l->applies >> k & 1) != 0)
            listed += listed_for(l, all, e, k);
    return listed > 0;
}

static void few(struct leaf *l, const struct parts *all, const char *sizes,
                size_t variant, size_t ends, double listed) {
    const struct variant *list;
    values_variants(l->values, &list);
    struct text name = list[variant].name;
    diag_add(l->composer.diags, DIAG_TERMINALS_FEW, all->part[0].block->at,
             "%s: %zu ends%s%.*s, listed for them: %.0f", sizes, ends,
             name.len > 0 ? " in " : "", (int)name.len, name.start, listed);
}

/* One terminal that takes two sizes is still one. */
static bool check_together(struct leaf *l, const struct parts *all,
                           const struct wire_ends *ends, size_t count,
                           size_t variant) {
    struct buf sizes = buf_in(l->composer.arena);
    size_t sum = 0;
    double listed = 0;
    for (size_t i = 0; i < count; i++) {
        if (listed_for(l, all, &ends[i], variant) == 0)
            continue;
        sum += ends[i].count[variant];
        buf_printf(&sizes, "%s%s", sizes.len > 0 ? ", " : "",
                   ends[i].size->label);
    }
    for (size_t p = 0; p < all->count; p++) {
        bool taken = false;
        for (size_t i = 0; i < count && !taken; i++)
            taken = crimps(&all->part[p], ends[i].size->label);
        listed += taken ? number_in(l, &all->part[p], variant) : 0;
    }
    if ((double)sum <= listed)
        return true;
    few(l, all, buf_cstr(&sizes), variant, sum, listed);
    return false;
}

/* Of each size that the guide lists terminals for, whether they are enough; the
 * others stay in *ends, to be listed. */
void terminals_check(struct leaf *l, const struct parts *all,
                     struct wire_ends *ends, size_t *count) {
    const struct variant *list;
    size_t variants = values_variants(l->values, &list), kept = 0;
    bool good = true;
    for (size_t p = 0; p < all->count; p++)
        check_sizes(l, &all->part[p]);
    for (size_t i = 0; i < *count; i++)
        for (size_t k = 0; k < variants && good; k++) {
            double listed =
                ends[i].count[k] == 0 ? 0 : listed_for(l, all, &ends[i], k);
            good = listed == 0 || listed >= (double)ends[i].count[k];
            if (!good)
                few(l, all, ends[i].size->label, k, ends[i].count[k], listed);
        }
    for (size_t k = 0; k < variants && good && all->count > 0; k++)
        if ((l->applies >> k & 1) != 0)
            good = check_together(l, all, ends, *count, k);
    for (size_t i = 0; i < *count; i++)
        if (!is_listed(l, all, &ends[i]))
            ends[kept++] = ends[i];
    *count = kept;
}

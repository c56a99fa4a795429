/* partlist.c - the parts that the job uses, and the wire. */
#include "layout/partlist.h"

#include "base/arena.h"
#include "calc/contact.h"
#include "calc/size.h"
#include "layout/prose.h"
#include "layout/table.h"
#include "layout/terminals.h"
#include "source/stock.h"
#include "values/wire_total.h"

#include <math.h>
#include <stdlib.h>

variant_set partlist_variants(const struct leaf *l, const struct entry *e) {
    return l->applies & values_tagged(l->values, &e->tags);
}

/* The cell of the guide's row, else of the catalogue. */
const struct cell *partlist_cell(const struct part *p, const char *column) {
    const struct cell *cell = tree_cell(p->block, p->row, column);
    if ((cell == NULL || cell->text.len == 0) && p->catalogue != NULL)
        cell = tree_cell(p->catalogue->block, p->catalogue->row, column);
    return cell != NULL && cell->text.len > 0 ? cell : NULL;
}

/* The rows of one item from *row on. */
static struct part part_of(const struct leaf *l, const struct stock *used,
                           size_t *row) {
    const struct stock_row *first = &used->row[*row];
    struct part p = {.item = first->item, .rows = first};
    for (; *row < used->count && text_equal(used->row[*row].item, first->item);
         ++*row) {
        const struct stock_row *r = &used->row[*row];
        variant_set variants = partlist_variants(l, r->row);
        p.row_count++;
        p.variants |= variants;
        if (p.row == NULL && variants != 0) {
            p.block = r->block;
            p.row = r->row;
            p.order = r->order;
        }
    }
    return p;
}

static int by_order(const void *left, const void *right) {
    const struct part *a = left, *b = right;
    return (a->order > b->order) - (a->order < b->order);
}

static void collect(struct leaf *l, struct parts *all) {
    struct arena *a = l->composer.arena;
    struct stock used = stock_used(a, l->guide);
    struct stock catalogue = stock_catalogue(a, l->guide);
    all->part = arena_alloc(a, used.count + 1, sizeof *all->part);
    for (size_t row = 0; row < used.count;) {
        struct part p = part_of(l, &used, &row);
        if (p.row == NULL)
            continue; /* for no variant here */
        p.catalogue = stock_find(&catalogue, p.item);
        all->part[all->count++] = p;
    }
    if (all->count > 1)
        qsort(all->part, all->count, sizeof *all->part, by_order);
}

/* A tenth more for slips and bends, in whole feet or tenths of a metre; NULL:
 * the variant needs none. */
static const char *length_in(struct leaf *l, const void *row, size_t variant) {
    const struct wire_total *w = row;
    double more = w->length[variant] * 1.1;
    if (!(more > 0))
        return NULL;
    if (text_is(leaf_setting(l, "units"), "SI"))
        return arena_printf(l->composer.arena, "%.1f\xC2\xA0m",
                            ceil(more * 10 - 1e-9) / 10);
    return arena_printf(l->composer.arena,
                        "%.0f\xC2\xA0"
                        "ft",
                        ceil(more / 0.3048 - 1e-9));
}

/* Sum of the rows for one variant as they print: "1", or "1 + 2". */
static const char *quantity_in(struct leaf *l, const struct part *p,
                               size_t variant) {
    struct arena *a = l->composer.arena;
    const char *sum = NULL;
    variant_set one = (variant_set)1 << variant;
    for (size_t i = 0; i < p->row_count; i++) {
        const struct stock_row *r = &p->rows[i];
        if ((partlist_variants(l, r->row) & one) == 0)
            continue;
        const char *q =
            values_print_cell(l->values, a, r->block, r->row, "quantity", one);
        if (q != NULL)
            sum = sum == NULL ? q : arena_printf(a, "%s + %s", sum, q);
    }
    return sum;
}

static bool same(const char *a, const char *b) {
    return a == b ||
           (a != NULL && b != NULL && text_equal(text_of(a), text_of(b)));
}

/* Columns by variant where a quantity differs. */
static void choose_columns(struct leaf *l, struct parts *all) {
    const struct variant *list;
    size_t count = values_variants(l->values, &list), columns = 0;
    size_t variant[VARIANT_COLUMNS];
    bool differs = false;
    for (size_t i = 0; i < count; i++) {
        if ((l->applies & (variant_set)1 << i) == 0)
            continue;
        if (columns == VARIANT_COLUMNS)
            return;
        variant[columns++] = i;
        for (size_t k = 0; k < all->count; k++)
            differs |= !same(quantity_in(l, &all->part[k], i),
                             quantity_in(l, &all->part[k], variant[0]));
        for (size_t k = 0; k < all->ends_count; k++)
            differs |= all->ends[k].count[i] != all->ends[k].count[variant[0]];
        for (size_t k = 0; k < all->wire_count; k++)
            differs |= !same(length_in(l, &all->wire[k], i),
                             length_in(l, &all->wire[k], variant[0]));
    }
    if (!differs)
        return;
    all->variant_count = columns;
    for (size_t i = 0; i < columns; i++)
        all->variant[i] = variant[i];
}

static void add_cell(struct leaf *l, struct rich *r, const struct part *p,
                     const char *column, bool whole) {
    struct spot spot = prose_body(l, p->variants);
    spot.type = l->style.small;
    const struct cell *cell = partlist_cell(p, column);
    size_t from = r->count;
    if (cell != NULL)
        prose_add_cell(l, r, cell, &spot);
    for (size_t i = from; whole && i < r->count; i++)
        r->chunk[i].whole = true;
}

static void add_quantity(struct leaf *l, struct rich *r, const struct part *p) {
    const struct variant *list;
    size_t count = values_variants(l->values, &list), first = 0;
    while (first < count && (p->variants & (variant_set)1 << first) == 0)
        first++;
    const char *one = quantity_in(l, p, first);
    bool differs = false;
    for (size_t i = 0; i < count; i++)
        if ((p->variants & (variant_set)1 << i) != 0)
            differs |= !same(one, quantity_in(l, p, i));
    if (!differs) {
        leaf_add_value(l, r, l->style.small, FACE_REGULAR, one);
        return;
    }
    for (size_t i = 0; i < count; i++) {
        if ((p->variants & (variant_set)1 << i) == 0)
            continue;
        const char *q = quantity_in(l, p, i);
        leaf_add_value(l, r, l->style.small, FACE_REGULAR,
                       arena_printf(l->composer.arena, "%s%.*s: %s",
                                    r->count == 0 ? "" : "; ",
                                    (int)list[i].name.len, list[i].name.start,
                                    q == NULL ? "–" : q));
    }
}

static void add_interchange(struct leaf *l, struct rich *r,
                            const struct part *p) {
    struct spot spot = prose_body(l, p->variants);
    spot.type = l->style.small;
    for (const struct cell *cell = partlist_cell(p, "interchange");
         cell != NULL; cell = cell->next) {
        if (r->count > 0)
            rich_line_end(l->composer.arena, r);
        prose_add_cell(l, r, cell, &spot);
    }
}

static void add_row(struct leaf *l, struct table *t, const struct parts *all,
                    const struct part *p) {
    struct table_row *row = table_add(l->composer.arena, t, p->row->at);
    struct rich *cell = row->cell;
    rich_add(l->composer.arena, cell++, leaf_tone(l->style.small, FACE_BOLD),
             p->item, p->row->at)
        ->whole = true;
    if (all->variant_count == 0)
        add_quantity(l, cell++, p);
    for (size_t i = 0; i < all->variant_count; i++)
        leaf_add_value(l, cell++, l->style.small, FACE_REGULAR,
                       quantity_in(l, p, all->variant[i]));
    add_cell(l, cell++, p, "description", false);
    add_cell(l, cell, p, "maker", false);
    leaf_add(l, cell, l->style.small, FACE_REGULAR, " ");
    add_cell(l, cell++, p, "number", true);
    const struct cell *renew =
        l->guide->job == NULL ? partlist_cell(p, "renew") : NULL;
    if (renew != NULL && text_is(renew->text, "yes"))
        leaf_add(l, cell, l->style.small, FACE_REGULAR, "always");
    cell++;
    add_interchange(l, cell, p);
}

/* Of a row that is counted, not listed: what it says for a variant. */
typedef const char *figure_in(struct leaf *l, const void *row, size_t variant);

/* "4", or "short: 4; long, tall: 6". */
static void add_by_variant(struct leaf *l, struct rich *cell, figure_in *figure,
                           const void *of) {
    struct arena *a = l->composer.arena;
    const struct variant *list;
    size_t count = values_variants(l->values, &list);
    variant_set left = l->applies;
    for (size_t i = 0; i < count; i++) {
        const char *one = figure(l, of, i);
        variant_set alike = 0;
        for (size_t k = i; k < count; k++)
            if ((left >> k & 1) != 0 && same(one, figure(l, of, k)))
                alike |= (variant_set)1 << k;
        if ((left >> i & 1) == 0 || one == NULL)
            continue;
        const char *names = values_variant_names(l->values, a, alike);
        left &= ~alike;
        leaf_add_value(l, cell, l->style.small, FACE_REGULAR,
                       alike == l->applies
                           ? one
                           : arena_printf(a, "%s%s: %s",
                                          cell->count == 0 ? "" : "; ",
                                          text_held(a, names), one));
    }
}

/* Its first cells; returns the next one. */
static struct rich *add_counted(struct leaf *l, struct table *t,
                                const struct parts *all, const char *item,
                                figure_in *figure, const void *of) {
    struct arena *a = l->composer.arena;
    struct type type = l->style.small;
    struct rich *cell = table_add(a, t, t->at)->cell;
    rich_add(a, cell++, leaf_tone(type, FACE_BOLD), text_of(item), t->at)
        ->whole = true;
    if (all->variant_count == 0)
        add_by_variant(l, cell++, figure, of);
    for (size_t i = 0; i < all->variant_count; i++)
        leaf_add_value(l, cell++, type, FACE_REGULAR,
                       figure(l, of, all->variant[i]));
    return cell;
}

static const char *ends_in(struct leaf *l, const void *row, size_t variant) {
    const struct wire_ends *e = row;
    return e->count[variant] == 0
               ? NULL
               : arena_printf(l->composer.arena, "%zu", e->count[variant]);
}

static void add_terminals(struct leaf *l, struct table *t,
                          const struct parts *all, const struct wire_ends *e) {
    struct arena *a = l->composer.arena;
    const struct crimp *c = crimp_for(e->size);
    struct rich *cell = add_counted(
        l, t, all, arena_printf(a, "terminal %s", e->size->label), ends_in, e);
    leaf_add(l, cell, l->style.small, FACE_REGULAR,
             c == NULL ? "bare lug"
                       : arena_printf(a, "%s, %s", c->colour, c->gauges));
}

static void add_wire(struct leaf *l, struct table *t, const struct parts *all,
                     const struct wire_total *w) {
    struct arena *a = l->composer.arena;
    struct rich *cell = add_counted(
        l, t, all, arena_printf(a, "wire %s", w->size->label), length_in, w);
    struct buf words = buf_in(a);
    buf_text(&words, w->colour[0]);
    if (w->colour[1].len > 0) {
        buf_puts(&words, "/");
        buf_text(&words, w->colour[1]);
    }
    leaf_add(l, cell, l->style.small, FACE_REGULAR, buf_cstr(&words));
}

/* Each word of a name on a line of its own: the columns are narrow. */
static void add_stacked(struct leaf *l, struct rich *r, struct text name,
                        struct span at) {
    struct tone tone = leaf_tone(l->style.small, FACE_BOLD);
    for (size_t end = 0; name.len > 0; name = text_part(name, end, name.len)) {
        end = 0;
        while (end < name.len && name.start[end] != ' ')
            end++;
        if (r->count > 0)
            rich_line_end(l->composer.arena, r);
        rich_add(l->composer.arena, r, tone, text_part(name, 0, end), at);
        end += end < name.len;
    }
}

static void add_head(struct leaf *l, struct table *t, const struct parts *all) {
    struct type type = l->style.small;
    const struct variant *list;
    values_variants(l->values, &list);
    size_t k = 0;
    leaf_add(l, &t->head[k++], type, FACE_BOLD, "item");
    if (all->variant_count == 0)
        leaf_add(l, &t->head[k++], type, FACE_BOLD, "quantity");
    for (size_t i = 0; i < all->variant_count; i++) {
        t->align[k] = ALIGN_RIGHT;
        add_stacked(l, &t->head[k++], list[all->variant[i]].name, t->at);
    }
    leaf_add(l, &t->head[k++], type, FACE_BOLD, "description");
    leaf_add(l, &t->head[k++], type, FACE_BOLD, "maker, number");
    leaf_add(l, &t->head[k++], type, FACE_BOLD, "renew");
    leaf_add(l, &t->head[k++], type, FACE_BOLD, "interchange");
}

bool partlist_any(const struct leaf *l) {
    return leaf_next(l, NULL, KIND_PARTS) != NULL ||
           wire_needs(l->values, l->composer.arena).total_count > 0;
}

void partlist_set(struct leaf *l) {
    struct parts all = {0};
    collect(l, &all);
    const struct wire_needs needs = wire_needs(l->values, l->composer.arena);
    all.wire = needs.total;
    all.wire_count = needs.total_count;
    all.ends = needs.ends;
    all.ends_count = needs.ends_count;
    if (all.count + all.wire_count == 0)
        return;
    terminals_check(l, &all, all.ends, &all.ends_count);
    choose_columns(l, &all);
    size_t columns = 5 + (all.variant_count == 0 ? 1 : all.variant_count);
    struct text name =
        leaf_part_name(l, l->guide->job == NULL ? PART_PARTS : PART_FITTED);
    struct table *t = table_new(
        l->composer.arena, columns, name.len > 0 ? name : text_of("Parts"),
        all.count > 0 ? all.part[0].block->at : l->guide->root->at);
    t->drop_empty = true;
    add_head(l, t, &all);
    for (size_t i = 0; i < all.count; i++)
        add_row(l, t, &all, &all.part[i]);
    for (size_t i = 0; i < all.ends_count; i++)
        add_terminals(l, t, &all, &all.ends[i]);
    for (size_t i = 0; i < all.wire_count; i++)
        add_wire(l, t, &all, &all.wire[i]);
    table_set(&l->flow, t, 0, leaf_width(l), l->style.small);
    if (all.wire_count == 0)
        return;
    struct rich note = {0};
    struct type type = l->style.small;
    leaf_add(l, &note, type, FACE_REGULAR,
             all.ends_count == 0
                 ? "Wire by its size and colour, a tenth of its length to "
                   "spare."
                 : "Wire by its size and colour, a tenth of its length to "
                   "spare; a terminal for each end, to fit what it goes to.");
    l->flow.space = 3;
    flow_bond(&l->flow, BOND_FAST);
    flow_paragraph(&l->flow, &note, 0, leaf_width(l), type, l->guide->root->at);
}

const char *partlist_renewed(struct leaf *l) {
    struct parts all = {0};
    struct buf b = buf_in(l->composer.arena);
    collect(l, &all);
    for (size_t i = 0; i < all.count; i++) {
        const struct cell *renew = partlist_cell(&all.part[i], "renew");
        if (renew == NULL || !text_is(renew->text, "yes"))
            continue;
        buf_puts(&b, b.len == 0 ? "always new: " : ", ");
        buf_text(&b, all.part[i].item);
    }
    return b.len == 0 ? NULL : buf_cstr(&b);
}

/* datasheet.c - what the blocks compute, as tables.
 *
 * A row for each block; where figures differ by variant, a row for each set of
 * variants that share them all. Currents, drops and temperatures stand at their
 * high end, allowed currents at their low end: what the job must stand. */
#include "layout/datasheet.h"

#include "base/arena.h"
#include "layout/bolts.h"
#include "layout/prose.h"
#include "layout/ratings.h"
#include "layout/refer.h"
#include "layout/schematic.h"
#include "layout/table.h"
#include "source/namesake.h"
#include "values/quantity.h"
#include "values/range.h"

#include <math.h>
#include <string.h>

enum { DATA_COLUMNS = 10 };

struct data_column {
    const char *head;
    const char *name; /* setting or field; NULL ends the list */
    enum print_form form;
    enum column_use {
        EACH,
        HIGHEST, /* one figure for all variants: the worst */
        WORDS,   /* that wrap as they must */
    } use;
};

static const struct data_column wire_columns[] = {
    {"size", "size", PRINT_PLAIN, EACH},
    {"loop", "loop", PRINT_HIGH, EACH},
    {"current", "most", PRINT_HIGH, EACH},
    {"lost", "drop", PRINT_HIGH, EACH},
    {"limit", "drop limit", PRINT_PLAIN, EACH},
    {"may carry", "ampacity", PRINT_LOW, EACH},
    {"reaches", "temperature", PRINT_HIGH, EACH},
    {0},
};

static const struct data_column fuse_columns[] = {
    {"rating", "rating", PRINT_PLAIN, EACH},
    {"style", "style", PRINT_PLAIN, EACH},
    {"place", "place", PRINT_PLAIN, EACH},
    {"protects", "protects", PRINT_PLAIN, EACH},
    {"fault", "fault.high", PRINT_HIGH, HIGHEST},
    {"breaks", "breaks", PRINT_PLAIN, EACH},
    {0},
};

enum { RATING, COLOUR, STYLE }; /* of these columns */

static const struct data_column rating_columns[] = {
    {"rating", "rating", PRINT_PLAIN, EACH},
    {"colour", "colour", PRINT_PLAIN, EACH},
    {"style", "style", PRINT_PLAIN, EACH},
    {"largest steady load", "steady", PRINT_LOW, EACH},
    {0},
};

static const struct data_column carries_columns[] = {
    {"size", "size", PRINT_PLAIN, EACH},
    {"current", "most", PRINT_HIGH, EACH},
    {0},
};

static const struct data_column torque_columns[] = {
    {"count", "count", PRINT_PLAIN, EACH},
    {"thread", "thread", PRINT_PLAIN, EACH},
    {"grade", "grade", PRINT_PLAIN, EACH},
    {"condition", "condition", PRINT_PLAIN, EACH},
    {"torque", "torque", PRINT_PLAIN, EACH},
    {"set wrench to", "setting", PRINT_PLAIN, EACH},
    {"order", "pattern", PRINT_PLAIN, EACH},
    {"re-check", "re-check", PRINT_PLAIN, WORDS},
    {"renew", "renew", PRINT_PLAIN, EACH},
    {0},
};

/* The printed figures of a block for one set of variants. */
struct data_row {
    const struct block *block;
    variant_set variants;
    const char *cell[DATA_COLUMNS];
};

struct data {
    const struct data_column *column;
    struct data_row *row;
    size_t count, room;
    bool by_variant; /* some block has several rows */
};

/* Where the quantity reaches highest. */
static size_t worst_variant(const struct leaf *l, const struct named *n,
                            size_t variant) {
    const struct variant *list;
    size_t count = values_variants(l->values, &list);
    double most = -INFINITY;
    for (size_t i = 0; i < count; i++) {
        const struct value *v = &n->by_variant[i];
        if ((l->applies >> i & 1) == 0 || v->type != VALUE_QUANTITY)
            continue;
        double high = range_ends(v->quantity).high;
        if (high > most) {
            most = high;
            variant = i;
        }
    }
    return variant;
}

static const char *figure(struct leaf *l, const struct block *b,
                          const struct data_column *k, size_t variant) {
    const struct named *n = values_of(l->values, b, k->name);
    if (n == NULL)
        return NULL;
    /* What a cable for cranking may carry for long is not what it is for. */
    const struct named *cranking = text_is(text_of(k->name), "ampacity")
                                       ? values_of(l->values, b, "cranking")
                                       : NULL;
    if (cranking != NULL &&
        cranking->by_variant[variant].type == VALUE_QUANTITY)
        return arena_printf(l->composer.arena, "%s cranking",
                            values_print(l->values, l->composer.arena, cranking,
                                         variant, k->form));
    return values_print(
        l->values, l->composer.arena, n,
        k->use == HIGHEST ? worst_variant(l, n, variant) : variant, k->form);
}

static bool same_row(const struct data *d, const struct data_row *a,
                     const struct data_row *b) {
    for (size_t k = 0; d->column[k].head != NULL; k++)
        if (!text_equal(text_of(a->cell[k]), text_of(b->cell[k])))
            return false;
    return true;
}

static void add_block(struct leaf *l, struct data *d, const struct block *b) {
    const struct variant *list;
    size_t variants = values_variants(l->values, &list), from = d->count;
    for (size_t i = 0; i < variants; i++) {
        struct data_row row = {b, (variant_set)1 << i, {NULL}};
        if ((l->applies & row.variants) == 0)
            continue;
        for (size_t k = 0; d->column[k].head != NULL; k++)
            row.cell[k] = figure(l, b, &d->column[k], i);
        size_t at = from;
        while (at < d->count && !same_row(d, &d->row[at], &row))
            at++;
        if (at < d->count) {
            d->row[at].variants |= row.variants;
            continue;
        }
        if (d->count == d->room) {
            d->room = d->room == 0 ? 8 : d->room * 2;
            d->row = arena_grow(l->composer.arena, d->row, d->count, d->room,
                                sizeof *d->row);
        }
        d->row[d->count++] = row;
    }
    d->by_variant |= d->count - from > 1;
}

static bool is_printed(const struct block *b) {
    return b->name.len > 0; /* without a name it only sets defaults */
}

static void collect(struct leaf *l, struct data *d, enum kind_id kind) {
    for (const struct block *b = leaf_next(l, NULL, kind); b != NULL;
         b = leaf_next(l, b, kind))
        if (is_printed(b))
            add_block(l, d, b);
}

static bool column_used(const struct data *d, size_t k) {
    for (size_t i = 0; i < d->count; i++)
        if (d->row[i].cell[k] != NULL)
            return true;
    return false;
}

/* Above a table that a section has beside others. */
static void set_title(struct leaf *l, const char *title, struct span at) {
    struct rich r = {0};
    leaf_add(l, &r, l->style.table, FACE_BOLD, title);
    flow_space(&l->flow, 8);
    flow_paragraph(&l->flow, &r, 0, leaf_width(l), l->style.table, at);
    leaf_join_title(l);
}

enum { LEAD_COLUMNS = 2 }; /* what; for which variants */

/* Whether " to " begins or ends here: no figure is parted in its range. */
static bool is_beside_to(const char *words, const char *blank) {
    return strncmp(blank, " to ", 4) == 0 ||
           (blank - words >= 3 && strncmp(blank - 3, " to ", 4) == 0);
}

/* Words that wrap as they must, no thing parted from its number; nor what
 * stands in parentheses. */
static void add_words(struct leaf *l, struct rich *r, const char *words) {
    struct buf b = buf_in(l->composer.arena);
    size_t inside = 0;
    for (const char *c = words; *c != '\0'; c++) {
        inside += *c == '(';
        inside -= *c == ')' && inside > 0;
        bool hold = *c == ' ' && (inside > 0 || is_beside_to(words, c));
        buf_add(&b, hold ? "\xC2\xA0" : c, hold ? 2 : 1);
    }
    rich_add(l->composer.arena, r, leaf_tone(l->style.table, FACE_REGULAR),
             buf_as_text(&b), l->guide->root->at)
        ->held = true;
}

static void add_data_row(struct leaf *l, struct table *t, const struct data *d,
                         size_t i) {
    struct arena *a = l->composer.arena;
    struct type type = l->style.table;
    const struct data_row *one = &d->row[i];
    struct table_row *row = table_add(a, t, one->block->at);
    struct text name = text_of(namesake_name(a, l->guide, one->block));
    if (i == 0 || d->row[i - 1].block != one->block)
        rich_add(a, &row->cell[0], leaf_tone(type, FACE_BOLD), name,
                 one->block->at)
            ->whole = true;
    else
        row->group = name;
    if (d->by_variant)
        add_words(l, &row->cell[1],
                  one->variants == l->applies
                      ? "all"
                      : values_variant_names(l->values, a, one->variants));
    for (size_t k = 0; d->column[k].head != NULL; k++)
        if (one->cell[k] != NULL && d->column[k].use == WORDS)
            add_words(l, &row->cell[LEAD_COLUMNS + k], one->cell[k]);
        else if (column_used(d, k))
            leaf_add_value(l, &row->cell[LEAD_COLUMNS + k], type, FACE_REGULAR,
                           one->cell[k]);
}

/* Columns that no block fills stay empty, and are dropped. */
static struct table *table_of(struct leaf *l, const struct data *d,
                              const char *what, const char *name) {
    struct type type = l->style.table;
    size_t columns = 0;
    while (d->column[columns].head != NULL)
        columns++;
    struct table *t =
        table_new(l->composer.arena, LEAD_COLUMNS + columns, text_of(name),
                  d->count > 0 ? d->row[0].block->at : l->guide->root->at);
    t->drop_empty = true;
    leaf_add(l, &t->head[0], type, FACE_BOLD, what);
    leaf_add(l, &t->head[1], type, FACE_BOLD, "for");
    for (size_t k = 0; k < columns; k++)
        leaf_add(l, &t->head[LEAD_COLUMNS + k], type, FACE_BOLD,
                 d->column[k].head);
    for (size_t i = 0; i < d->count; i++)
        add_data_row(l, t, d, i);
    return t;
}

static void set_table(struct leaf *l, const struct table *t, bool titled) {
    if (t->count == 0)
        return;
    if (titled)
        set_title(l, text_cstr(l->composer.arena, t->name), t->at);
    else
        flow_space(&l->flow, 6);
    table_set(&l->flow, t, 0, leaf_width(l), l->style.table);
    flow_space(&l->flow, 8);
}

static void set_data(struct leaf *l, const struct data *d, const char *what,
                     const char *name, bool titled) {
    if (d->count > 0)
        set_table(l, table_of(l, d, what, name), titled);
}

static bool any(const struct leaf *l, enum kind_id kind) {
    for (const struct block *b = leaf_next(l, NULL, kind); b != NULL;
         b = leaf_next(l, b, kind))
        if (is_printed(b))
            return true;
    return false;
}

bool datasheet_any_electrical(const struct leaf *l) {
    return any(l, KIND_WIRE) || any(l, KIND_FUSE) || schematic_any(l);
}

void datasheet_set_electrical(struct leaf *l) {
    struct data wires = {.column = wire_columns};
    struct data fuses = {.column = fuse_columns};
    collect(l, &wires, KIND_WIRE);
    collect(l, &fuses, KIND_FUSE);
    set_data(l, &wires, "wire", "Wire sizing, worst case", true);
    set_data(l, &fuses, "fuse", "Fuse sizing, worst case", true);
    schematic_set(l);
}

bool datasheet_any_ratings(const struct leaf *l) {
    return any(l, KIND_WIRE) || any(l, KIND_FUSE) || ratings_any(l);
}

void datasheet_set_ratings(struct leaf *l) {
    struct data wires = {.column = carries_columns};
    struct data fuses = {.column = rating_columns};
    collect(l, &wires, KIND_WIRE);
    collect(l, &fuses, KIND_FUSE);
    struct table *t = table_of(l, &fuses, "fuse", "Fuses");
    ratings_add(l, t,
                (struct ratings_columns){LEAD_COLUMNS + RATING,
                                         LEAD_COLUMNS + COLOUR,
                                         LEAD_COLUMNS + STYLE});
    set_table(l, t, false);
    set_data(l, &wires, "wire", "Wires", false);
}

bool datasheet_any_torque(const struct leaf *l) {
    return any(l, KIND_TORQUE);
}

/* Whose figure a torque is: the words in quotes behind it, or behind the value
 * that it names. */
static const char *figure_source(const struct leaf *l, const struct block *b) {
    struct buf all = buf_in(l->composer.arena);
    const struct named *n = values_of(l->values, b, "figure");
    const struct text *last = NULL;
    for (size_t i = 0; n != NULL && (l->applies >> i) != 0; i++) {
        const struct value *value = &n->by_variant[i];
        if ((l->applies >> i & 1) == 0 || value->type != VALUE_QUANTITY)
            continue;
        const struct text *note = &value->quantity->note;
        if (note->len == 0 || (last != NULL && text_equal(*last, *note)))
            continue;
        buf_puts(&all, last == NULL ? "" : ", ");
        buf_text(&all, *note);
        last = note;
    }
    return buf_cstr(&all);
}

/* Below the table. */
static void set_figure_sources(struct leaf *l) {
    struct type type = l->style.least;
    struct rich r = {0};
    for (const struct block *b = leaf_next(l, NULL, KIND_TORQUE); b != NULL;
         b = leaf_next(l, b, KIND_TORQUE)) {
        const char *source = figure_source(l, b);
        if (!is_printed(b) || source[0] == '\0')
            continue;
        leaf_add(l, &r, type, FACE_REGULAR, r.count == 0 ? "Figures: " : "; ");
        rich_add(l->composer.arena, &r, leaf_tone(type, FACE_BOLD),
                 text_of(namesake_name(l->composer.arena, l->guide, b)), b->at);
        leaf_add(l, &r, type, FACE_REGULAR, " ");
        rich_add(l->composer.arena, &r, leaf_tone(type, FACE_REGULAR),
                 text_of(source), b->at);
    }
    flow_paragraph(&l->flow, &r, 0, leaf_width(l), type, l->guide->root->at);
}

void datasheet_set_torque(struct leaf *l) {
    struct data data = {.column = torque_columns};
    collect(l, &data, KIND_TORQUE);
    set_data(l, &data, "joint", "Torque", false);
    l->flow.space = 3;
    flow_bond(&l->flow, BOND_FAST);
    set_figure_sources(l);
    bolts_set(l);
}

bool datasheet_any_limits(const struct leaf *l) {
    return leaf_next(l, NULL, KIND_LIMITS) != NULL;
}

static void add_limit_row(struct leaf *l, struct table *t,
                          const struct block *b, const struct entry *e) {
    static const char *const columns[] = {
        "id", "characteristic", "limit", "condition", "instrument", "if out"};
    struct arena *a = l->composer.arena;
    struct spot spot = prose_body(l, l->applies);
    spot.type = l->style.table;
    spot.variants &= values_of_row(l->values, b, e);
    if (spot.variants == 0)
        return;
    struct table_row *row = table_add(a, t, e->at);
    row->anchor = refer_row(l, b, e);
    for (size_t k = 0; k < sizeof columns / sizeof columns[0]; k++) {
        const struct cell *cell = tree_cell(b, e, columns[k]);
        if (cell == NULL)
            continue;
        if (k == 2) {
            leaf_add_value(l, &row->cell[k], spot.type, FACE_BOLD,
                           values_print_cell(l->values, a, b, e, columns[k],
                                             spot.variants));
        } else if (k == 0) {
            rich_add(a, &row->cell[k], leaf_tone(spot.type, FACE_BOLD),
                     cell->text, cell->at)
                ->whole = true;
            leaf_add_readers(l, &row->cell[k], spot.type, spot.variants,
                             l->applies);
        } else
            prose_add_cell(l, &row->cell[k], cell, &spot);
    }
}

void datasheet_set_limits(struct leaf *l) {
    static const char *const heads[] = {"",          "measured",   "limit",
                                        "condition", "instrument", "if out"};
    const struct block *first = leaf_next(l, NULL, KIND_LIMITS);
    if (first == NULL)
        return;
    struct table *t =
        table_new(l->composer.arena, 6, text_of("Limits"), first->at);
    t->drop_empty = true;
    for (size_t k = 0; k < 6; k++)
        leaf_add(l, &t->head[k], l->style.table, FACE_BOLD, heads[k]);
    for (const struct block *b = first; b != NULL;
         b = leaf_next(l, b, KIND_LIMITS))
        for (size_t i = 0; i < b->entry_count; i++)
            if (b->entries[i].kind == ENTRY_ROW)
                add_limit_row(l, t, b, &b->entries[i]);
    table_set(&l->flow, t, 0, leaf_width(l), l->style.table);
}

/* ratings.c - for the owner: fuses, breakers and wires that stand in a circuit
 * only, without a block of their own. */
#include "layout/ratings.h"

#include "base/arena.h"
#include "calc/fuse.h"
#include "layout/table.h"
#include "values/circuit_shown.h"

static bool is_fuse(const struct circuit_element *e) {
    return e->part == CIRCUIT_FUSE || e->part == CIRCUIT_BREAKER;
}

/* What has a block is told by that. */
static bool has_block(const struct leaf *l, const struct block *b,
                      const struct circuit_element *e) {
    if (is_fuse(e))
        return values_block(l->values, b->scope, e->name, "fuse") != NULL;
    return e->word_count > 0 &&
           values_block(l->values, b->scope, e->word[0], "wire") != NULL;
}

static bool counts(const struct leaf *l, const struct block *b, size_t i,
                   bool fuses) {
    const struct circuit_element *e = &b->circuit->element[i];
    return (fuses ? is_fuse(e) : e->part == CIRCUIT_WIRE) &&
           circuit_shown_first(b->circuit, i) == i && !has_block(l, b, e);
}

static const struct block *next_kept(const struct leaf *l,
                                     const struct block *b) {
    do
        b = leaf_next(l, b, KIND_CIRCUIT);
    while (b != NULL &&
           (b->circuit == NULL || b->circuit->bad || circuit_as_found(b)));
    return b;
}

static bool any(const struct leaf *l, bool fuses) {
    for (const struct block *b = next_kept(l, NULL); b != NULL;
         b = next_kept(l, b))
        for (size_t i = 0; i < b->circuit->element_count; i++)
            if (counts(l, b, i, fuses))
                return true;
    return false;
}

bool ratings_any(const struct leaf *l) {
    return any(l, true) || any(l, false);
}

/* "class T", "breaker"; NULL: it says none. */
static const char *kind_of(struct arena *a, const struct circuit_element *e) {
    for (size_t i = 0; i < e->word_count; i++)
        if (fuse_style_find(e->word[i].start, e->word[i].len) != NULL)
            return text_cstr(a, e->word[i]);
    return e->part == CIRCUIT_BREAKER ? circuit_part_word(e->part) : NULL;
}

/* "red", "red with a black tracer". */
static const char *colour_of(struct arena *a, const struct circuit_element *e) {
    if (e->colour[0].len == 0)
        return NULL;
    const char *colour = text_cstr(a, e->colour[0]);
    return e->colour[1].len == 0
               ? colour
               : arena_printf(a, "%s with a %.*s tracer", colour,
                              (int)e->colour[1].len, e->colour[1].start);
}

/* One that several circuits draw is told once. */
static bool is_told(const struct table *t, const char *name, const char *what) {
    for (size_t i = 0; i < t->count; i++) {
        const struct rich *cell = t->row[i].cell;
        if (text_is(cell[0].chunk[0].text, name) &&
            text_is(cell[1].chunk[0].text, what))
            return true;
    }
    return false;
}

static void add(struct leaf *l, struct table *t, const struct block *b,
                size_t i) {
    struct arena *a = l->composer.arena;
    struct type type = l->style.table;
    const struct circuit_element *e = &b->circuit->element[i];
    struct circuit_shown shown = circuit_shown(l->values, a, b, i, l->applies);
    const char *what = is_fuse(e) ? shown.rating : shown.size;
    const char *more = is_fuse(e) ? kind_of(a, e) : colour_of(a, e);
    const char *name = text_cstr(a, e->name);
    if (what == NULL || is_told(t, name, what))
        return; /* it is in none of these vehicles */
    struct table_row *row = table_add(a, t, e->at);
    leaf_add_value(l, &row->cell[0], type, FACE_BOLD, name);
    leaf_add_value(l, &row->cell[1], type, FACE_REGULAR, what);
    if (more != NULL)
        leaf_add_value(l, &row->cell[2], type, FACE_REGULAR, more);
}

static void set(struct leaf *l, bool fuses) {
    static const char *const heads[2][3] = {{"wire", "size", "colour"},
                                            {"fuse", "rating", "style"}};
    const struct block *first = next_kept(l, NULL);
    if (!any(l, fuses))
        return;
    struct table *t = table_new(l->composer.arena, 3,
                                text_of(fuses ? "Fuses" : "Wires"), first->at);
    t->drop_empty = true;
    for (size_t k = 0; k < 3; k++)
        leaf_add(l, &t->head[k], l->style.table, FACE_BOLD, heads[fuses][k]);
    for (const struct block *b = first; b != NULL; b = next_kept(l, b))
        for (size_t i = 0; i < b->circuit->element_count; i++)
            if (counts(l, b, i, fuses))
                add(l, t, b, i);
    if (t->count == 0)
        return;
    flow_space(&l->flow, 6);
    table_set(&l->flow, t, 0, leaf_width(l), l->style.table);
    flow_space(&l->flow, 8);
}

void ratings_set(struct leaf *l) {
    set(l, true);
    set(l, false);
}

/* ratings.c - for the owner: fuses and breakers that stand in a circuit only,
 * without a block of their own. */
#include "layout/ratings.h"

#include "base/arena.h"
#include "calc/fuse.h"
#include "values/circuit_rating.h"
#include "values/circuit_shown.h"

static bool is_fuse(const struct circuit_element *e) {
    return e->part == CIRCUIT_FUSE || e->part == CIRCUIT_BREAKER;
}

/* What has a block is told by that. */
static bool counts(const struct leaf *l, const struct block *b, size_t i) {
    const struct circuit_element *e = &b->circuit->element[i];
    return is_fuse(e) && circuit_shown_first(b->circuit, i) == i &&
           values_block(l->values, b->scope, e->name, "fuse") == NULL;
}

static const struct block *next_kept(const struct leaf *l,
                                     const struct block *b) {
    do
        b = leaf_next(l, b, KIND_CIRCUIT);
    while (b != NULL &&
           (b->circuit == NULL || b->circuit->bad || circuit_as_found(b)));
    return b;
}

bool ratings_any(const struct leaf *l) {
    for (const struct block *b = next_kept(l, NULL); b != NULL;
         b = next_kept(l, b))
        for (size_t i = 0; i < b->circuit->element_count; i++)
            if (counts(l, b, i))
                return true;
    return false;
}

/* "class T", "breaker"; NULL: it says none. */
static const char *kind_of(const struct circuit_element *e) {
    const struct fuse_style *style = circuit_rating_said(e);
    if (style != NULL)
        return style->name;
    return e->part == CIRCUIT_BREAKER ? circuit_part_word(e->part) : NULL;
}

/* One that several circuits draw is told once. */
static bool is_told(const struct table *t, const char *name, size_t rating,
                    const char *what) {
    for (size_t i = 0; i < t->count; i++) {
        const struct rich *cell = t->row[i].cell;
        if (!rich_empty(&cell[0]) && !rich_empty(&cell[rating]) &&
            text_is(cell[0].chunk[0].text, name) &&
            text_is(cell[rating].chunk[0].text, what))
            return true;
    }
    return false;
}

static void add(struct leaf *l, struct table *t, const struct block *b,
                size_t i, struct ratings_columns to) {
    struct arena *a = l->composer.arena;
    struct type type = l->style.table;
    const struct circuit_element *e = &b->circuit->element[i];
    struct circuit_shown shown = circuit_shown(l->values, a, b, i, l->applies);
    const char *what = shown.rating, *more = kind_of(e);
    const char *name = text_cstr(a, e->name);
    if (what == NULL || is_told(t, name, to.rating, what))
        return; /* it is in none of these vehicles */
    struct table_row *row = table_add(a, t, e->at);
    leaf_add_value(l, &row->cell[0], type, FACE_BOLD, name);
    leaf_add_value(l, &row->cell[to.rating], type, FACE_REGULAR, what);
    if (shown.colour != NULL)
        leaf_add_value(l, &row->cell[to.colour], type, FACE_REGULAR,
                       shown.colour);
    if (more != NULL)
        leaf_add_value(l, &row->cell[to.style], type, FACE_REGULAR, more);
}

void ratings_add(struct leaf *l, struct table *t, struct ratings_columns to) {
    for (const struct block *b = next_kept(l, NULL); b != NULL;
         b = next_kept(l, b))
        for (size_t i = 0; i < b->circuit->element_count; i++)
            if (counts(l, b, i))
                add(l, t, b, i, to);
}

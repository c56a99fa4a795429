/* rows.c - rows that cannot be meant: parts and readings. */
#include "checks/rows.h"

#include "base/diag.h"
#include "source/kind.h"
#include "source/suggest.h"
#include "source/tree.h"
#include "values/values.h"

struct rows {
    struct compile *c;
    const struct guide *guide;
    const struct values *values;
};

static const struct cell *filled(const struct block *b, const struct entry *e,
                                 const char *column) {
    const struct cell *cell = tree_cell(b, e, column);
    return cell != NULL && cell->text.len > 0 ? cell : NULL;
}

static bool is_row(const struct entry *e) {
    return e->kind == ENTRY_ROW && !e->bad;
}

/* ---- readings ---- */

static variant_set readers(const struct rows *r, const struct block *b,
                           const struct entry *e) {
    return values_applies(r->values) & values_readers(r->values, b->node) &
           values_tagged(r->values, &e->tags);
}

/* The row before this one that has its id for a variant of it. */
static const struct cell *same_id(const struct rows *r, const struct block *b,
                                  const struct entry *e, struct text id) {
    variant_set mine = readers(r, b, e);
    for (size_t i = 0; i < r->guide->block_count; i++) {
        const struct block *other = r->guide->blocks[i];
        if (other->kind->id != KIND_LIMITS)
            continue;
        for (size_t k = 0; k < other->entry_count; k++) {
            const struct entry *one = &other->entries[k];
            if (one == e)
                return NULL;
            const struct cell *cell =
                is_row(one) ? filled(other, one, "id") : NULL;
            if (cell != NULL && text_equal(cell->text, id) &&
                (readers(r, other, one) & mine) != 0)
                return cell;
        }
    }
    return NULL;
}

static void check_limit(const struct rows *r, const struct block *b,
                        const struct entry *e) {
    const struct cell *id = filled(b, e, "id");
    const struct cell *other = id == NULL ? NULL : same_id(r, b, e, id->text);
    if (other == NULL)
        return;
    diag_add(r->c->diags, DIAG_NAME_TWICE, id->at, "'%.*s'", (int)id->text.len,
             id->text.start);
    diag_note(r->c->diags, other->at, "the other one is here");
}

/* ---- parts ---- */

static bool is_catalogue(const struct block *b) {
    return b->kind->id == KIND_PARTS && b->node == NULL;
}

static bool in_catalogue(const struct rows *r, struct nearest *near) {
    bool any = false;
    for (size_t i = 0; i < r->guide->block_count; i++) {
        const struct block *b = r->guide->blocks[i];
        for (size_t k = 0; is_catalogue(b) && k < b->entry_count; k++) {
            const struct cell *item = filled(b, &b->entries[k], "item");
            if (item == NULL)
                continue;
            if (text_equal(item->text, near->wanted))
                return true;
            nearest_offer(near, item->text);
            any = true;
        }
    }
    return !any; /* no catalogue: the guide's word for it is all there is */
}

/* What is used must be there to be ordered: how many, and of what. */
static void check_used(const struct rows *r, const struct block *b,
                       const struct entry *e) {
    const struct cell *quantity = filled(b, e, "quantity");
    const struct cell *item = filled(b, e, "item");
    if (quantity == NULL)
        diag_add(r->c->diags, DIAG_CELL_MISSING, e->at, "'quantity' is empty");
    for (size_t i = 0; quantity != NULL && i < 64; i++) {
        if ((readers(r, b, e) >> i & 1) == 0 ||
            !(values_cell_number(r->values, b, e, "quantity", i) <= 0))
            continue;
        diag_add(r->c->diags, DIAG_SETTING_VALUE, quantity->at,
                 "a quantity is above 0");
        break;
    }
    if (item == NULL || filled(b, e, "description") != NULL ||
        filled(b, e, "number") != NULL)
        return;
    struct nearest near = nearest_to(item->text);
    if (!in_catalogue(r, &near))
        diag_add(r->c->diags, DIAG_NAME_UNKNOWN, item->at,
                 "'%.*s' is not in the catalogue%s; else describe it here",
                 (int)item->text.len, item->text.start,
                 suggest(r->c->arena, item->text,
                         (struct text){near.best, near.best_len}));
}

static bool ends_in(struct text t, const char *word) {
    struct text w = text_of(word);
    return t.len > w.len && text_equal(text_part(t, t.len - w.len, t.len), w);
}

static bool has_words(struct text t, const char *words) {
    for (size_t i = 1; i < t.len; i++)
        if (text_starts(text_part(t, i, t.len), words))
            return true;
    return false;
}

static void check_grade(const struct rows *r, const struct cell *cell) {
    struct text t = cell->text;
    if (t.len == 0 || ends_in(t, " direct") || ends_in(t, " reference only") ||
        (has_words(t, " with change: ") && !ends_in(t, " with change:")))
        return;
    diag_add(r->c->diags, DIAG_SETTING_VALUE, cell->at,
             "an interchange number has its grade behind it: direct, with "
             "change: ..., or reference only");
}

static void check_part(const struct rows *r, const struct block *b,
                       const struct entry *e) {
    const struct cell *renew = filled(b, e, "renew");
    if (renew != NULL && !text_is(renew->text, "yes") &&
        !text_is(renew->text, "no"))
        diag_add(r->c->diags, DIAG_CHOICE_UNKNOWN, renew->at,
                 "'%.*s'; one of: yes, no", (int)renew->text.len,
                 renew->text.start);
    for (const struct cell *cell = filled(b, e, "interchange"); cell != NULL;
         cell = cell->next)
        check_grade(r, cell);
    if (!is_catalogue(b))
        check_used(r, b, e);
}

void rows_check(struct compile *c, const struct guide *g,
                const struct values *v) {
    const struct rows r = {c, g, v};
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        for (size_t k = 0; k < b->entry_count; k++) {
            if (!is_row(&b->entries[k]))
                continue;
            if (b->kind->id == KIND_LIMITS)
                check_limit(&r, b, &b->entries[k]);
            else if (b->kind->id == KIND_PARTS)
                check_part(&r, b, &b->entries[k]);
        }
    }
}

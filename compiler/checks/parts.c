/* parts.c - parts that nobody can order. */
#include "checks/parts.h"

#include "base/arena.h"
#include "base/diag.h"
#include "source/kind.h"
#include "source/stock.h"
#include "source/suggest.h"
#include "source/tree.h"
#include "values/values.h"

#include <stdlib.h>

struct parts {
    struct compile *c;
    const struct guide *guide;
    const struct values *values;
    struct stock catalogue;
};

static const struct cell *filled(const struct block *b, const struct entry *e,
                                 const char *column) {
    const struct cell *cell = tree_cell(b, e, column);
    return cell != NULL && cell->text.len > 0 ? cell : NULL;
}

static variant_set readers(const struct parts *r, const struct block *b,
                           const struct entry *e) {
    return values_applies(r->values) & values_readers(r->values, b->node) &
           values_tagged(r->values, &e->tags);
}

static bool is_catalogue(const struct block *b) {
    return b->kind->id == KIND_PARTS && b->node == NULL;
}

/* What is used must be there to be ordered: how many, and of what. */
static void check_used(const struct parts *r, const struct block *b,
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
    /* Without a catalogue the guide's word for it is all there is. */
    if (r->catalogue.count == 0 ||
        stock_find(&r->catalogue, item->text) != NULL)
        return;
    struct nearest near = nearest_to(item->text);
    for (size_t i = 0; i < r->catalogue.count; i++)
        nearest_offer(&near, r->catalogue.row[i].item);
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

static void check_grade(const struct parts *r, const struct cell *cell) {
    struct text t = cell->text;
    if (t.len == 0 || ends_in(t, " direct") || ends_in(t, " reference only") ||
        (has_words(t, " with change: ") && !ends_in(t, " with change:")))
        return;
    diag_add(r->c->diags, DIAG_SETTING_VALUE, cell->at,
             "an interchange number has its grade behind it: direct, with "
             "change: ..., or reference only");
}

static void check_part(const struct parts *r, const struct block *b,
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

/* What a maker's number stands for. */
struct number {
    struct text maker, number, description;
    struct span at;
    size_t order; /* as they stand */
};

static int by_number(const void *left, const void *right) {
    const struct number *a = left, *b = right;
    int order = text_compare(a->maker, b->maker);
    if (order == 0)
        order = text_compare(a->number, b->number);
    return order != 0 ? order : a->order < b->order ? -1 : a->order > b->order;
}

static void add_numbers(const struct block *b, struct number *list,
                        size_t *count) {
    for (size_t k = 0; b->kind->id == KIND_PARTS && k < b->entry_count; k++) {
        const struct entry *e = &b->entries[k];
        if (e->kind != ENTRY_ROW || e->bad)
            continue;
        const struct cell *maker = filled(b, e, "maker");
        const struct cell *number = filled(b, e, "number");
        const struct cell *description = filled(b, e, "description");
        if (number == NULL || description == NULL)
            continue;
        list[*count] = (struct number){
            maker == NULL ? text_of("") : maker->text, number->text,
            description->text, description->at, *count};
        ++*count;
    }
}

/* One number is one thing: else the wrong one is ordered. */
static void check_numbers(const struct parts *r) {
    const struct guide *g = r->guide;
    size_t room = 0, count = 0;
    for (size_t i = 0; i < g->block_count; i++)
        if (g->blocks[i]->kind->id == KIND_PARTS)
            room += g->blocks[i]->entry_count;
    if (room == 0)
        return;
    struct number *list = arena_alloc(r->c->arena, room, sizeof *list);
    for (size_t i = 0; i < g->block_count; i++)
        add_numbers(g->blocks[i], list, &count);
    qsort(list, count, sizeof *list, by_number);
    for (size_t i = 1, first = 0; i < count; i++) {
        const struct number *one = &list[first], *other = &list[i];
        if (!text_equal(one->maker, other->maker) ||
            !text_equal(one->number, other->number)) {
            first = i;
            continue;
        }
        if (text_equal(one->description, other->description))
            continue;
        diag_add(r->c->diags, DIAG_NAME_TWICE, other->at,
                 "number '%.*s' has two descriptions", (int)other->number.len,
                 other->number.start);
        diag_note(r->c->diags, one->at, "the other one is here");
    }
}

void parts_check(struct compile *c, const struct guide *g,
                 const struct values *v) {
    const struct parts r = {c, g, v, stock_catalogue(c->arena, g)};
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        for (size_t k = 0; b->kind->id == KIND_PARTS && k < b->entry_count; k++)
            if (b->entries[k].kind == ENTRY_ROW && !b->entries[k].bad)
                check_part(&r, b, &b->entries[k]);
    }
    check_numbers(&r);
}

/* stock.c - rows of `parts` blocks by item. */
#include "source/stock.h"

#include "base/arena.h"
#include "source/kind.h"

#include <stdlib.h>

static int by_item(const void *left, const void *right) {
    const struct stock_row *a = left, *b = right;
    int order = text_compare(a->item, b->item);
    return order != 0 ? order : a->order < b->order ? -1 : a->order > b->order;
}

static bool is_of(const struct block *b, bool catalogue) {
    return b->kind->id == KIND_PARTS && (b->node == NULL) == catalogue;
}

static struct stock collect(struct arena *a, const struct guide *g,
                            bool catalogue) {
    size_t room = 0;
    for (size_t i = 0; i < g->block_count; i++)
        if (is_of(g->blocks[i], catalogue))
            room += g->blocks[i]->entry_count;
    struct stock s = {arena_alloc(a, room + 1, sizeof *s.row), 0};
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        for (size_t k = 0; is_of(b, catalogue) && k < b->entry_count; k++) {
            const struct cell *item = tree_cell(b, &b->entries[k], "item");
            if (item == NULL)
                continue;
            s.row[s.count] =
                (struct stock_row){item->text, b, &b->entries[k], s.count};
            s.count++;
        }
    }
    if (s.count > 1)
        qsort(s.row, s.count, sizeof *s.row, by_item);
    return s;
}

struct stock stock_used(struct arena *a, const struct guide *g) {
    return collect(a, g, false);
}

struct stock stock_catalogue(struct arena *a, const struct guide *g) {
    return collect(a, g, true);
}

const struct stock_row *stock_find(const struct stock *s, struct text item) {
    struct stock_row wanted = {.item = item};
    size_t low = 0, high = s->count; /* the first that is not before it */
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (by_item(&s->row[middle], &wanted) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return low < s->count && text_equal(s->row[low].item, item) ? &s->row[low]
                                                                : NULL;
}

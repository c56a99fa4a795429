/* stock.h - rows of `parts` blocks by item: those that the guide uses, and
 * those of the catalogue in the facts. */
#ifndef STOCK_H
#define STOCK_H

#include "source/tree.h"

struct arena;

struct stock_row {
    struct text item;
    const struct block *block;
    const struct entry *row;
    size_t order; /* as they stand */
};

/* By item, then as they stand. */
struct stock {
    struct stock_row *row;
    size_t count;
};

struct stock stock_used(struct arena *a, const struct guide *g);
struct stock stock_catalogue(struct arena *a, const struct guide *g);
/* The first row of this item, or NULL. */
const struct stock_row *stock_find(const struct stock *s, struct text item);

#endif

/* column.h - widths of the columns of a table from what stands in them. */
#ifndef COLUMN_H
#define COLUMN_H

#include "layout/words.h"

struct grid { /* the cells of a table, row after row */
    struct words *const *cell;
    size_t rows, columns;
};

/* Widths that add up to room: natural ones where they fit, else those that give
 * the least height. False when not even the longest pieces fit. */
bool column_fit(struct arena *a, const struct grid *g, double room,
                double *width);

#endif

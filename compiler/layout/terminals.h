/* terminals.h - inside partlist: the parts of a guide, and the terminals among
 * them. */
#ifndef TERMINALS_H
#define TERMINALS_H

#include "layout/leaf.h"
#include "source/stock.h"
#include "values/wire_total.h"

enum { VARIANT_COLUMNS = 4 }; /* more variants: their names stand in the cell */

struct part {
    struct text item;
    const struct block *block; /* first row in the guide */
    const struct entry *row;
    const struct stock_row *rows; /* all of them */
    size_t row_count;
    const struct stock_row *catalogue; /* or NULL */
    variant_set variants;              /* all rows together */
    size_t order;                      /* of the first row */
};

struct parts {
    struct part *part;
    size_t count;
    const struct wire_total *wire;
    size_t wire_count;
    struct wire_ends *ends; /* that the guide lists no terminals for */
    size_t ends_count;
    size_t variant_count; /* columns; 0: one column for all */
    size_t variant[VARIANT_COLUMNS];
};

/* partlist.c: the variants that a row is for. */
variant_set partlist_variants(const struct leaf *l, const struct entry *e);
/* The cell of the guide's row, else of the catalogue. */
const struct cell *partlist_cell(const struct part *p, const char *column);

/* Of each size that the guide lists terminals for, whether they are enough; the
 * others stay in *ends, to be listed. */
void terminals_check(struct leaf *l, const struct parts *all,
                     struct wire_ends *ends, size_t *count);

#endif

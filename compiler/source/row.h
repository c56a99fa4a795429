/* row.h - rows of a block: cells between bars, under the columns that the first
 * row names. */
#ifndef ROW_H
#define ROW_H

#include "base/text.h"
#include "source/tree.h"

#include <stdbool.h>
#include <stddef.h>

struct compile;

/* One row: the line that begins it and the lines `| cell` that go on with it.
 */
struct row_lines {
    struct text *line; /* slices of the source */
    size_t count;
};

/* Reads the row that names the columns into b->columns and b->column. False
 * after a message. */
bool row_head(struct compile *c, const struct scope *scope, struct block *b,
              const struct row_lines *row);
/* Reads a row into *e. False after a message. */
bool row_read(struct compile *c, const struct scope *scope,
              const struct block *b, const struct row_lines *row,
              struct entry *e);

#endif

/* table.h - tables: widths from the content, cells that wrap, rows that are not
 * split, the head repeated on each page. */
#ifndef TABLE_H
#define TABLE_H

#include "layout/flow.h"

enum align { ALIGN_LEFT, ALIGN_RIGHT, ALIGN_CENTRE };

struct table_row {
    struct rich *cell; /* [column_count] */
    bool again; /* goes on with the row above: no line between, no break */
    struct text group; /* that rows above say it is of: where it begins a page,
                          the head above it does */
    struct span at;
    struct anchor *anchor;
};

struct table {
    size_t column_count;
    struct rich *head;   /* [column_count]; all empty: no head */
    enum align *align;   /* [column_count] */
    const double *share; /* [column_count] of the width; NULL: as it fits */
    struct table_row *row;
    size_t count, room;
    bool drop_empty;  /* columns without any text are left out */
    struct text name; /* for "Parts, continued" */
    struct span at;
};

struct table *table_new(struct arena *a, size_t column_count, struct text name,
                        struct span at);
/* A new row; the caller fills its cells with rich_add(). */
struct table_row *table_add(struct arena *a, struct table *t, struct span at);
/* Cells and heads must be set in `type`; the table is shrunk to style->least
 * when it is too wide, and reported when that does not help. */
void table_set(struct flow *f, const struct table *t, double x, double width,
               struct type type);

#endif

/* ratings.h - for the owner: fuses and breakers that stand in a circuit only,
 * without a block of their own. */
#ifndef RATINGS_H
#define RATINGS_H

#include "layout/leaf.h"
#include "layout/table.h"

/* In a circuit as it is after the job: what was found is kept by nobody. */
bool ratings_any(const struct leaf *l);
struct ratings_columns { /* of a table, what stands in which */
    size_t rating, colour, style;
};

/* A row for each behind those of the table; the name in its first column. */
void ratings_add(struct leaf *l, struct table *t, struct ratings_columns to);

#endif

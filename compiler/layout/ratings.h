/* ratings.h - for the owner: fuses and breakers that stand in a circuit only,
 * without a block of their own. */
#ifndef RATINGS_H
#define RATINGS_H

#include "layout/leaf.h"
#include "layout/table.h"

/* In a circuit as it is after the job: what was found is kept by nobody. */
bool ratings_any(const struct leaf *l);
/* A row for each behind those of a table: its name in the first column, its
 * rating and its style in these. */
void ratings_add(struct leaf *l, struct table *t, size_t rating, size_t style);

#endif

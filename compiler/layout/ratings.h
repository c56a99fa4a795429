/* ratings.h - for the owner: fuses and breakers that stand in a circuit only,
 * without a block of their own. */
#ifndef RATINGS_H
#define RATINGS_H

#include "layout/leaf.h"

/* In a circuit as it is after the job: what was found is kept by nobody. */
bool ratings_any(const struct leaf *l);
void ratings_set(struct leaf *l);

#endif

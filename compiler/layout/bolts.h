/* bolts.h - figures of the order in which the fasteners of a joint are
 * tightened. */
#ifndef BOLTS_H
#define BOLTS_H

#include "layout/leaf.h"

/* One for each torque block that names a pattern and a count that it has an
 * order for; where they differ by variant, one for each. */
void bolts_set(struct leaf *l);

#endif

/* measured.h - boxes for readings that no row of limits describes. */
#ifndef MEASURED_H
#define MEASURED_H

#include "stages.h"

/* {reading R9} without a row R9 would print no box to fill in. */
void measured_find(struct compile *c, const struct guide *g);

#endif

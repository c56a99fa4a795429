/* measured.h - readings, and the rows of limits that describe them. */
#ifndef MEASURED_H
#define MEASURED_H

#include "stages.h"

/* {reading R9} without a row R9 would print no box to fill in; two rows R9 for
 * one variant would print either. */
void measured_check(struct compile *c, const struct guide *g,
                    const struct values *v);

#endif

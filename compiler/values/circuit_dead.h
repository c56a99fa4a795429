/* circuit_dead.h - loads that no current can reach, however switches stand. */
#ifndef CIRCUIT_DEAD_H
#define CIRCUIT_DEAD_H

#include "values/circuit_solve.h"

/* A message for each load and coil that lies on no way from the plus of a
 * supply to its minus, all contacts closed; true: there is one. A way meets no
 * node twice: two loads that end in one point which leads no further are both
 * without current. */
bool circuit_dead_report(struct circuit_work *w);
/* A load that takes nothing in any state: what feeds it would be judged by
 * nothing. Each is a message. */
void circuit_dead_require(struct circuit_work *w);

#endif

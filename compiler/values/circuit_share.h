/* circuit_share.h - what a fuse of a circuit may carry for long. */
#ifndef CIRCUIT_SHARE_H
#define CIRCUIT_SHARE_H

#include "values/circuit_solve.h"

/* 80 % of its rating where a load behind it is on for hours, or what its block
 * allows: common practice, no source. Without a block its style says what the
 * heat of the wires beside it leaves of the rating. Of all states that last the
 * one that leaves it least; any of them is left on. */
void circuit_share_require(struct circuit_work *w, size_t part);

#endif

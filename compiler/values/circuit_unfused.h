/* circuit_unfused.h - wire of a circuit up to its first fuse. */
#ifndef CIRCUIT_UNFUSED_H
#define CIRCUIT_UNFUSED_H

#include "values/circuit_solve.h"

/* H05: from each source a fuse stands within reach along the wire, or the
 * source limits its own current to what the wire carries. */
void circuit_unfused_require(struct circuit_work *w);
/* A fuse or breaker, that is there in this variant. */
bool circuit_unfused_ends(const struct circuit_work *w, size_t part);
/* Nodes that no fuse and no load parts from this one. */
void circuit_unfused_zone(const struct circuit_work *w, size_t node,
                          bool *zone);

#endif

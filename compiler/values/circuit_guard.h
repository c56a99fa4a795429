/* circuit_guard.h - what guards a circuit against a short. */
#ifndef CIRCUIT_GUARD_H
#define CIRCUIT_GUARD_H

struct circuit_work;

/* A wire too far from its source without a fuse (H05), a fuse that cannot break
 * the fault current behind it (H04b), one that a short at the far end does not
 * open (H06b). */
void circuit_guard_require(struct circuit_work *w);

#endif

/* circuit_guard.h - what guards a circuit against a short. */
#ifndef CIRCUIT_GUARD_H
#define CIRCUIT_GUARD_H

#include <stdbool.h>
#include <stddef.h>

struct block;
struct circuit_work;
struct values;

/* Whether a fuse block stands in a circuit that is judged. */
bool circuit_guard_knows(struct values *v, const struct block *fuse,
                         size_t variant);
/* A, of the same: what it must break, at the most, and what a short at the
 * terminals of a load takes through it, at the least; NAN: it feeds none by
 * itself. False: no circuit that has it could be solved. */
bool circuit_guard_faults(struct values *v, const struct block *fuse,
                          size_t variant, double *high, double *low);

/* A wire too far from its source without a fuse (H05), a fuse that cannot break
 * the fault current behind it (H04b), one that a short at the far end does not
 * open (H06b). */
void circuit_guard_require(struct circuit_work *w);

#endif

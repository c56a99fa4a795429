/* circuit_ends.h - inside circuit_block: the ends of a result. */
#ifndef CIRCUIT_ENDS_H
#define CIRCUIT_ENDS_H

#include "values/circuit_task.h"

/* Finds where a search must begin besides, in the state that is solved at its
 * nominal figures, which it is again behind it; false after a message. */
bool circuit_ends_open(struct task *t, const struct quantity *at);
/* The result in the solution at hand. */
double circuit_ends_now(const struct task *t);
/* Its least or its most over the ranges, from its nominal value on; NAN: a
 * corner has no solution. *moved: the roots that move it most there; as it was
 * where one stands within its range. */
double circuit_ends_find(const struct task *t, double nominal, bool high,
                         const struct corner **moved);

#endif

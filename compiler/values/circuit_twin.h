/* circuit_twin.h - variants in which a circuit is the same. */
#ifndef CIRCUIT_TWIN_H
#define CIRCUIT_TWIN_H

#include "values/circuit_solve.h"

/* Whether every result is the same in both: each part, state and figure, and
 * which figures hang on each other. All states of both were solved. */
bool circuit_twin_is(const struct circuit_work *a,
                     const struct circuit_work *b);

#endif

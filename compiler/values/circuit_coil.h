/* circuit_coil.h - whether the relays of a circuit surely move. */
#ifndef CIRCUIT_COIL_H
#define CIRCUIT_COIL_H

#include "values/circuit_solve.h"

/* A question for each coil that, in some state, gets a voltage at which one
 * maker's relay pulls and another's does not. */
void circuit_coil_require(struct circuit_work *w);

#endif

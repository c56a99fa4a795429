/* circuit_ground.h - the grounded posts of a circuit are one point. */
#ifndef CIRCUIT_GROUND_H
#define CIRCUIT_GROUND_H

#include "values/circuit_solve.h"

/* A message for two grounded posts that no part joins, whatever is open: the
 * chassis between them must be written. True: there was one. */
bool circuit_ground_report(const struct circuit_work *w);
/* Refuses supplies whose grounded posts stand a supply's voltage apart in a
 * state of the circuit: the chassis, which no path writes, shorts what is
 * between them. States are put on, and any of them is left on. */
void circuit_ground_require(struct circuit_work *w);

#endif

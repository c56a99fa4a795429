/* circuit_starved.h - motors that a state leaves so little voltage that what
 * they take is not known, and what hangs on their current. */
#ifndef CIRCUIT_STARVED_H
#define CIRCUIT_STARVED_H

#include "values/circuit_solve.h"

/* By element, in the state that is solved: motors and constant currents left
 * below half of the voltage at which their figure was measured, and every part
 * whose current is theirs, or partly. A constant current is safe for wires and
 * fuses; what a meter shows there nobody knows. NULL: there is none. */
const bool *circuit_starved_parts(const struct circuit_work *w);
/* Whether a point hangs on one of them; a post of a supply does not. */
bool circuit_starved_point(const struct circuit_work *w, size_t point);

#endif

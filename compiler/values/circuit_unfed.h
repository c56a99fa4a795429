/* circuit_unfed.h - why a circuit has no solution at the worst end. */
#ifndef CIRCUIT_UNFED_H
#define CIRCUIT_UNFED_H

#include "base/text.h"

struct circuit_work;

/* A message, once a circuit: one worst end without a solution spoils most
 * results, of which `name` is the first. It names the load of constant power
 * that asks for more than what feeds it can give, U^2/(4 R), where there is
 * one. */
void circuit_unfed_tell(struct circuit_work *w, struct text name);

#endif

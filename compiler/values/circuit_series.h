/* circuit_series.h - parts of a circuit that one current goes through. */
#ifndef CIRCUIT_SERIES_H
#define CIRCUIT_SERIES_H

#include "values/circuit_solve.h"

/* Of the parts between two points of a path, joined to nothing else in a state
 * that was solved, the one that is asked for the current of them all: a load,
 * whose voltage tells it best, or the first. A part that takes no current is
 * its own. */
size_t circuit_series_part(const struct circuit_work *w,
                           const struct circuit_memo *state, size_t part);

#endif

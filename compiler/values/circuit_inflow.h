/* circuit_inflow.h - what fuses that feed one wire let into it together. */
#ifndef CIRCUIT_INFLOW_H
#define CIRCUIT_INFLOW_H

#include "values/circuit_solve.h"

/* The most that may flow into a wire for good at one of its ends, A: the fuses,
 * and the sources that limit themselves, that hold it back there add up. From
 * the other end as much may come at the same time, but meets it in a short
 * only. A fuse ahead of several counts once: it is the largest flow through a
 * net whose parts hold their rating (Ford and Fulkerson), in the state that
 * lets most in. */
struct circuit_inflow {
    const struct quantity *most; /* NULL: nothing holds it back, or a single
                                    fuse does */
    const char *names;           /* "F1 and F2" */
};
/* States are put on, and any of them is left on. */
struct circuit_inflow circuit_inflow_of(struct circuit_work *w, size_t wire);

#endif

/* circuit_worst.h - the state of a circuit in which a part carries most. */
#ifndef CIRCUIT_WORST_H
#define CIRCUIT_WORST_H

#include "values/circuit_solve.h"

struct circuit_worst {
    const struct quantity *current; /* never below 0; NULL: none */
    size_t state;
};

/* A state in which something starts or is stalled: over before a wire is hot.
 */
bool circuit_worst_is_short(const struct circuit_state *s);
/* "current" or "voltage" of a part in a state; NULL: it has none. */
const struct quantity *circuit_worst_figure(const struct circuit_work *w,
                                            size_t part, size_t state,
                                            const char *what);
/* Over the ranges of all parts, short states left out. */
struct circuit_worst circuit_worst_of(const struct circuit_work *w,
                                      size_t part);
/* ", high beam"; "" where the state has no name. */
const char *circuit_worst_words(const struct circuit_work *w, size_t state);

#endif

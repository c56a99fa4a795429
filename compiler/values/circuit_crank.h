/* circuit_crank.h - currents of a circuit that last as long as an engine is
 * cranked, and those that last longer. */
#ifndef CIRCUIT_CRANK_H
#define CIRCUIT_CRANK_H

#include "values/circuit_worst.h"

/* Whether the circuit has a load whose duty is cranking. */
bool circuit_crank_loads(const struct circuit_work *w);
/* The same, or a wire. */
bool circuit_crank_any(const struct circuit_work *w);

struct circuit_crank {
    /* The largest current while a load is cranked; NULL: there is none. A wire
     * or a part in one path with it, whose block says cranking, is cranked in
     * every state of a circuit without such a load. */
    struct circuit_worst start;
    /* The largest that lasts: in states without cranking, and what else flows
     * while it is cranked; NULL: none. */
    struct circuit_worst lasting;
};
struct circuit_crank circuit_crank_of(struct circuit_work *w, size_t part);

/* Of the state that is solved: puts into w->start what share of the current of
 * each wire is that of loads that are cranked, where its path carries others as
 * well, or that start or are stalled, and into w->span for how long: of one
 * cranking, which is assumed; of the longest `starting` of its loads; of what
 * is stalled no time at all, since its current is largest at once, in wire that
 * is as warm as what lasts leaves it. False: there is no such wire. */
bool circuit_crank_share(struct circuit_work *w);

/* Of the state that is solved, after that: puts into w->warm what each wire
 * carries besides for long, where it is more than in another state. */
void circuit_crank_warm(struct circuit_work *w);

/* K, of a wire after one cranking with its current of the start, without loss
 * of heat (heating.h); the length of it is assumed. It begins where the largest
 * current that lasts leaves the wire, in whatever state that flows: a starter
 * is cranked through wire that is hot. */
struct quantity *circuit_crank_heat(struct circuit_work *w, size_t wire,
                                    const struct circuit_crank *crank);
/* The same by what the wire carries in a state, after as long as that lasts.
 * NULL after a message. */
struct quantity *circuit_crank_temperature(struct circuit_work *w, size_t wire,
                                           size_t state);

#endif

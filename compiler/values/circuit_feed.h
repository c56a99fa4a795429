/* circuit_feed.h - the fuses through which a wire of a circuit is fed. */
#ifndef CIRCUIT_FEED_H
#define CIRCUIT_FEED_H

#include "values/circuit_solve.h"

/* How the change-over relays of a circuit may stand. */
struct circuit_throws;
const struct circuit_throws *circuit_feed_throws(const struct circuit_work *w);
/* By element: fuses and breakers that the current of a wire meets last in a
 * state that lasts, or through which a short of it is fed: with every switch
 * closed, all change-over relays dropped, all pulled, and each of them the
 * other way, whatever states are written. None of wire up to the first fuse of
 * a source that does not limit itself; of wire that leads to a post of one that
 * does, those at its other post. States are put on, and any of them is
 * left on. */
bool *circuit_feed_fuses(struct circuit_work *w,
                         const struct circuit_throws *throws, size_t wire);

#endif

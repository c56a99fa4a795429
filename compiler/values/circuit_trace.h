/* circuit_trace.h - what the current of a part comes from and feeds, in the
 * state that is solved. */
#ifndef CIRCUIT_TRACE_H
#define CIRCUIT_TRACE_H

#include "values/circuit_solve.h"

/* A, with its sign: from `from` to `to`; 0 where it is open. */
double circuit_trace_current(const struct circuit_work *w, size_t part);
/* "solar at its full 20 A", with a comma between several, behind `words` that
 * are said of others; NULL: none is, and nothing is said. */
const char *circuit_trace_limits(const struct circuit_work *w,
                                 const char *words);
/* The loads and coils, by element, that the current of a part meets next on its
 * way (behind) or has met last (before); the posts of supplies that are on end
 * the way: what a battery feeds that is charged hangs on the battery. How many.
 */
size_t circuit_trace_loads(const struct circuit_work *w, size_t part,
                           bool behind, bool *load);
/* Whether the plus of a supply is the post that is grounded. */
bool circuit_trace_minus_hot(const struct circuit_work *w, size_t supply);
/* Whether its block says that one of its posts is grounded. */
bool circuit_trace_is_grounded(const struct circuit_work *w, size_t supply);
/* Whether neither post of a supply is grounded, as its block says. */
bool circuit_trace_floats(const struct circuit_work *w, size_t supply);
/* Whether a supply is a battery, as its chemistry says. */
bool circuit_trace_is_battery(const struct circuit_work *w, size_t supply);
/* The node of the other post, from which a short to the chassis is fed. */
size_t circuit_trace_hot_post(const struct circuit_work *w, size_t supply);
/* Whether a wire leads from the post of a supply to a fuse or breaker, and is
 * so short that it needs none ahead of it: 7 in, 33 CFR 183.455(b)(1). */
bool circuit_trace_is_lead(const struct circuit_work *w, size_t wire);
/* Adds the fuses and breakers that guard a part: those that its current has met
 * last, through loads too, or, where plus is grounded, meets next. */
void circuit_trace_fuses(const struct circuit_work *w, size_t part, bool *fuse);
/* The same, and those before them, up to the supplies. */
void circuit_trace_all_fuses(const struct circuit_work *w, size_t part,
                             bool *fuse);
/* The supply, as a part, that feeds a load: what its current comes from gives
 * current itself. Of several the one with the least voltage at its posts: the
 * load loses what it falls short of that; one that is at its limit only where
 * no other holds the voltage. SIZE_MAX: none. */
size_t circuit_trace_supply(const struct circuit_work *w, size_t load);
/* A supply and those in series with it, whose plus gives what its minus takes;
 * by part, from its own down. `string` has room for all; how many. */
size_t circuit_trace_string(const struct circuit_work *w, size_t supply,
                            size_t *string);
/* The supply that feeds a load and those in series with it, from its own down;
 * how many, 0: none. The list has room for all supplies, and one more. */
size_t circuit_trace_feeding(const struct circuit_work *w, size_t load,
                             size_t **string);
/* Those behind a part, also by way of a battery; where there are none, those
 * before it. */
void circuit_trace_served(const struct circuit_work *w, size_t part,
                          bool *load);
/* Those whose current comes under the fastener of a joint: it has passed no
 * other joint at the same point. How many. */
size_t circuit_trace_returns(const struct circuit_work *w, size_t joint,
                             bool *load);
/* Elements but joints whose current flows into the node where that of a part
 * enters. */
size_t circuit_trace_joined(const struct circuit_work *w, size_t part);

#endif

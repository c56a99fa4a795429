/* circuit_forgotten.h - the way back of a load that nobody wrote. */
#ifndef CIRCUIT_FORGOTTEN_H
#define CIRCUIT_FORGOTTEN_H

struct circuit_work;

/* Asks of each load that ends at the post to which it returns, with neither a
 * wire nor a joint between, while the wire that feeds it is long: half of its
 * loop is in no drop, no fault current and no parts list. */
void circuit_forgotten_require(struct circuit_work *w);

#endif

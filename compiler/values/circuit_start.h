/* circuit_start.h - fuses of a circuit while its loads start. */
#ifndef CIRCUIT_START_H
#define CIRCUIT_START_H

struct circuit_work;

/* Holds each fuse of a known curve to the load behind it whose start is
 * hardest, on top of what the others take; where no curve is known, or no time
 * of the start, it is listed that this was not checked. Where a state says
 * which loads start, these alone are looked at in it, and none where one is
 * stalled. */
void circuit_start_require(struct circuit_work *w);

#endif

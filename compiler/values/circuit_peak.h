/* circuit_peak.h - wires against what flows while a load starts or is stalled.
 */
#ifndef CIRCUIT_PEAK_H
#define CIRCUIT_PEAK_H

struct circuit_work;

/* Of each state in which a load starts or is stalled, and that cranks no
 * engine: the wire that it spoils first must last as long as the start does, or
 * until the fuse ahead of it opens for sure. Questions only: what stops a motor
 * that is stalled, a cut-out or whoever holds the switch, no block says. */
void circuit_peak_require(struct circuit_work *w);

#endif

/* circuit_extreme.h - the worst that a circuit does to whoever touches it. */
#ifndef CIRCUIT_EXTREME_H
#define CIRCUIT_EXTREME_H

struct circuit_work;

/* Widens the extremes of the circuit's block by those of one variant. */
void circuit_extreme_add(struct circuit_work *w);

#endif

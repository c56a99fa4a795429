/* circuit_require.h - what a circuit must hold. */
#ifndef CIRCUIT_REQUIRE_H
#define CIRCUIT_REQUIRE_H

struct values;

/* The rules of the trade, over all circuits and variants; those that are `as
 * found` are not judged. */
void circuit_require(struct values *v);

#endif

/* circuit_require.h - what a circuit's wires must hold. */
#ifndef CIRCUIT_REQUIRE_H
#define CIRCUIT_REQUIRE_H

struct values;

/* Each wire's current in each state, a start left out, against its ampacity;
 * circuits that are `as found` are not judged. */
void circuit_require(struct values *v);

#endif

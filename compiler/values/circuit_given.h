/* circuit_given.h - what a circuit says of the wire and fuse blocks that it
 * names, so that they need not repeat it. */
#ifndef CIRCUIT_GIVEN_H
#define CIRCUIT_GIVEN_H

#include "values/model.h"

/* `load`, `loop` and `supply` of a wire block, `protects` of a fuse block, as
 * the circuits tell them; ABSENT where none does. Circuits as found tell
 * nothing. */
struct value circuit_given(struct values *v, const struct block *b,
                           const char *setting, size_t variant);
/* Whether the wire block stands in a circuit, which is then held to a fuse by
 * itself. */
bool circuit_given_holds(struct values *v, const struct block *wire,
                         size_t variant);
/* A block that says otherwise than the circuit is a message. */
void circuit_given_check(struct values *v);

#endif

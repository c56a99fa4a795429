/* circuit_given.h - what a circuit says of the wire and fuse blocks that it
 * names, so that they need not repeat it. */
#ifndef CIRCUIT_GIVEN_H
#define CIRCUIT_GIVEN_H

#include "values/model.h"

/* `load`, `loop` and `supply` of a wire block, `duty` of one with several
 * loads, `protects` of a fuse block, as the circuits tell them; ABSENT where
 * none does. Circuits as found tell nothing. */
struct value circuit_given(struct values *v, const struct block *b,
                           const char *setting, size_t variant);
/* The length over which the current of a wire block, at its `most`, loses as
 * much as on the worst route through its wires, of which some carry less: a
 * common wire and its branches. NULL: the block says load or length itself, or
 * no circuit names it. */
struct quantity *circuit_given_loaded(struct values *v, const struct block *b,
                                      size_t variant,
                                      const struct quantity *most);
/* Whether the wire block stands in a circuit, which is then held to a fuse by
 * itself. */
bool circuit_given_holds(struct values *v, const struct block *wire,
                         size_t variant);
/* A block that says otherwise than the circuit is a message. */
void circuit_given_check(struct values *v);

#endif

/* circuit_state.h - supplies and states of a circuit, and what its names must
 * keep to. */
#ifndef CIRCUIT_STATE_H
#define CIRCUIT_STATE_H

#include "source/circuit_tree.h"

struct compile;

/* The `supply:` lines. */
void circuit_state_supplies(struct compile *c, const struct scope *scope,
                            struct block *b, const struct text *line,
                            size_t count);
/* Ids of elements; elements and points that share a name. */
void circuit_state_names(struct compile *c, const struct scope *scope,
                         struct block *b);
/* The `state:` lines, and contacts whose relay is not there. */
void circuit_state_states(struct compile *c, const struct scope *scope,
                          struct block *b, const struct text *line,
                          size_t count);

#endif

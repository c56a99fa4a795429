/* circuit_names.h - the names of what a circuit computes. */
#ifndef CIRCUIT_NAMES_H
#define CIRCUIT_NAMES_H

#include "values/model.h"

/* Slots for all its names; circuits with a message have none. */
void circuit_names_add(struct values *v, const struct block *b,
                       struct slot *(*add)(struct values *));
/* Points and loops stand in a list of all values, named or not. */
bool circuit_names_is_usual(const struct slot *s);
#endif

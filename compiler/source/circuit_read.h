/* circuit_read.h - lines of a `circuit` block -> supplies, states, paths. */
#ifndef CIRCUIT_READ_H
#define CIRCUIT_READ_H

#include "base/text.h"
#include "source/tree.h"

#include <stddef.h>

struct compile;

/* Lines that are neither blank nor comments, trimmed; settings of the kind's
 * table but `supply` and `state` are not among them. Fills b->circuit. */
void circuit_read(struct compile *c, const struct scope *scope, struct block *b,
                  const struct text *line, size_t count);

#endif

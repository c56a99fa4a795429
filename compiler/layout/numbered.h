/* numbered.h - numbered steps: panels before, number and tick box beside,
 * record boxes below. */
#ifndef NUMBERED_H
#define NUMBERED_H

#include "layout/prose.h"

void numbered_set(struct leaf *l, const struct node *steps,
                  const struct spot *spot);

#endif

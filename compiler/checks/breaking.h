/* breaking.h - whose figure it is that a fuse breaks so much. */
#ifndef BREAKING_H
#define BREAKING_H

#include "source/tree.h"
#include "stages.h"
#include "values/values.h"

/* A released guide states what a fuse breaks with its source: by that figure
 * alone a short ends in the fuse, and not in fire. */
void breaking_check(struct compile *c, const struct guide *g,
                    const struct values *v);

#endif

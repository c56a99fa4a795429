/* parts.h - parts that nobody can order. */
#ifndef PARTS_H
#define PARTS_H

#include "stages.h"

/* A part without quantity or of none, one that the catalogue does not know and
 * nobody describes, an interchange number without its grade. */
void parts_check(struct compile *c, const struct guide *g,
                 const struct values *v);

#endif

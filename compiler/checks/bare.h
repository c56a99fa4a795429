/* bare.h - numbers with a unit that stand in running text without braces. */
#ifndef BARE_H
#define BARE_H

#include "stages.h"

/* What is printed has been checked: a bare quantity is a warning in a draft and
 * refused in a released guide. The `plain sizes` of the shop's facts (spanners,
 * drills) may stand bare. */
void bare_find(struct compile *c, const struct guide *g);

#endif

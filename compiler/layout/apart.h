/* apart.h - parts of the page that a guide writes in two places. */
#ifndef APART_H
#define APART_H

#include "layout/leaf.h"

/* Sections of one part print together, wherever the guide has them. A mistake
 * where steps leave their order by that: two sections of a part, of which one
 * has steps, before and behind the steps of another one that prints. */
void apart_check(struct leaf *l);

#endif

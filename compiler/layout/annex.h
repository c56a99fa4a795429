/* annex.h - the calculations behind the page, so that an engineer can follow
 * them by hand: workings, checks, assumptions, rules set aside. */
#ifndef ANNEX_H
#define ANNEX_H

#include "layout/leaf.h"

bool annex_any(const struct leaf *l);
void annex_set(struct leaf *l);

#endif

/* annex.h - the calculations behind the page: rules set aside, checks,
 * assumptions, workings. */
#ifndef ANNEX_H
#define ANNEX_H

#include "layout/leaf.h"

bool annex_any(const struct leaf *l);
void annex_set(struct leaf *l);

#endif

/* remedy.h - the nearest thing that would pass a failed check. */
#ifndef REMEDY_H
#define REMEDY_H

#include "stages.h"
#include "values/requirement.h"

/* Tries the guide again with each wire that the check rests on one size larger,
 * then two, up to the largest: "feed in 8 AWG passes". NULL when none does. */
const char *remedy_find(struct compile *c, const struct guide *g,
                        const struct values *v, const struct requirement *r);

#endif

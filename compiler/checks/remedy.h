/* remedy.h - the nearest thing that would pass a failed check. */
#ifndef REMEDY_H
#define REMEDY_H

#include "stages.h"
#include "values/requirement.h"

struct remedies;

struct remedies *remedy_new(struct compile *c, const struct guide *g,
                            const struct values *v);
/* Tries the guide again with each wire that the check rests on one size larger,
 * then two, up to the largest: "feed in 8 AWG passes". NULL when none does, and
 * from some number of failed checks on: there the first cures come first. */
const char *remedy_find(struct remedies *e, const struct requirement *r);
void remedy_end(struct remedies *e);

#endif

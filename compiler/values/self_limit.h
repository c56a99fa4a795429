/* self_limit.h - sources that limit their own current. */
#ifndef SELF_LIMIT_H
#define SELF_LIMIT_H

#include "values/model.h"

/* The most that an alternator or a charger gives, A: `rated output` of a supply
 * whose `chemistry` is none; NULL: nobody says, or it is a battery. */
const struct quantity *
self_limit_output(struct values *v, const struct block *supply, size_t variant);
/* Whether a wire needs no fuse at such a source (H05), since it carries all
 * that the source gives: output <= ampacity. Then it is kept as a requirement,
 * with these sides. `r` says block, variant, part, place and what; `output` may
 * be NULL: no. */
bool self_limit_holds(struct values *v, struct requirement r,
                      const struct quantity *output,
                      const struct quantity *ampacity);
/* A message where a supply has a rated output and is a battery. */
void self_limit_check(struct values *v);

#endif

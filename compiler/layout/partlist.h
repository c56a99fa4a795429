/* partlist.h - the parts that the job uses: the guide's rows, filled up from
 * the catalogue in the facts. */
#ifndef PARTLIST_H
#define PARTLIST_H

#include "layout/leaf.h"

bool partlist_any(const struct leaf *l);
void partlist_set(struct leaf *l);
/* "always new: relay, ring 8-M8 (see Parts)"; NULL when there is none. */
const char *partlist_renewed(struct leaf *l);

#endif

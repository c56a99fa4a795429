/* crowd.h - so many warnings that none is read. */
#ifndef CROWD_H
#define CROWD_H

#include "checks/findings.h"
#include "stages.h"

/* More than three panels before a step; more than a tenth DANGER in a guide of
 * twenty panels or more. */
void crowd_check(struct compile *c, const struct guide *g,
                 const struct values *v, const struct findings *f);

#endif

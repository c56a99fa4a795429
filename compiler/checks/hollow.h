/* hollow.h - torques computed for bolts that are drilled. */
#ifndef HOLLOW_H
#define HOLLOW_H

#include "checks/judge.h"
#include "checks/walk.h"

/* Questions a torque without a maker's figure of what its name or the step that
 * tightens it calls a banjo bolt or a hollow one: it is computed from the
 * section of a solid bolt. `override hollow` answers. */
void hollow_check(struct compile *c, const struct guide *g,
                  const struct values *v, const struct steps *steps,
                  const struct verdicts *judged);

#endif

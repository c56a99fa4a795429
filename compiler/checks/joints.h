/* joints.h - joints that hold the vehicle together are tightened and signed. */
#ifndef JOINTS_H
#define JOINTS_H

#include "checks/catalogue.h"
#include "checks/judge.h"
#include "checks/walk.h"

/* Questions a mark of row H26 (wheel, brake, ...) in a guide without a torque
 * block for such a joint; and a torque block whose joint is one of row H26:
 * some step must say its torque, and such a step must have a box to sign in,
 * {initial} or {hold}, by the step behind it at the latest: in each variant
 * that reads the block. `override sign-off` answers. */
void joints_check(struct compile *c, const struct guide *g,
                  const struct values *v, const struct catalogue *k,
                  const struct steps *steps, const struct verdicts *judged);

#endif

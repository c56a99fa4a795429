/* waiting.h - steps that only wait, measure or end what others began: their
 * boxes, their figures, and that they are there. */
#ifndef WAITING_H
#define WAITING_H

#include "checks/catalogue.h"
#include "checks/judge.h"
#include "checks/walk.h"

/* Before an airbag (H11) the waiting time is a step of its own with a box to
 * record it, and its figure has a source, since it differs by maker. What is
 * proved dead is recorded. A battery that is taken off is fitted again. Stands
 * that are stated are set. The data sheet of a solvent is at hand (H21, H22).
 * All are questions; overrides: airbag-time, dead-record, reconnect,
 * stands-set, data-sheet. */
void waiting_check(struct compile *c, const struct guide *g,
                   const struct values *v, const struct catalogue *k,
                   const struct steps *steps, const struct verdicts *judged);

#endif

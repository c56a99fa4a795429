/* sense.h - blocks whose settings contradict each other or those of a block
 * that they name, though each is sound by itself. */
#ifndef SENSE_H
#define SENSE_H

#include "values/model.h"

/* Of the voltage at which a load was measured, and of that to which a drop
 * limit refers: above it nobody knows what the load does. Between 12 V at work
 * and 24 V at rest; ours. */
#define SENSE_VOLT_MOST 1.4
/* A motor starts with 3 to 10 times its running current, a lamp with some 15
 * (common practice, no source), a capacitor with more: a slip of the unit is
 * 1000 times. */
#define SENSE_START_MOST 300.0

/* A load that draws less at its most than in use; a wire that is for cranking,
 * or for a short time, before a load that is not; a fuse on another source than
 * its wire, or in the side that is grounded. Each is a message. A load or a
 * drop limit of another voltage than the supply's is a question, and so is what
 * looks like a slip of the unit: a start of hundreds of times the current in
 * use, a drop limit above the usual one without a reason, a fuse beyond the end
 * of its wire. */
void sense_check(struct values *v);

#endif

/* sense.h - blocks whose settings contradict each other or those of a block
 * that they name, though each is sound by itself. */
#ifndef SENSE_H
#define SENSE_H

#include "values/model.h"

/* A load that draws less at its most than in use; a wire that is for cranking,
 * or for a short time, before a load that is not; a fuse on another source than
 * its wire, or in the side that is grounded. Each is a message. */
void sense_check(struct values *v);

#endif

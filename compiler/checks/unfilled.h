/* unfilled.h - places that the author left to be filled in. */
#ifndef UNFILLED_H
#define UNFILLED_H

#include "stages.h"

/* TODO, TBD, FIXME or ??? in what is printed, and XX, __ or ?? in the place of
 * the number before a unit (not a line for a pen, "Mileage: ____ mi"): a
 * warning in a draft, and refused in a released guide. There the words "write
 * ... here" of `bayleaf start` are refused as well; in a draft they say what is
 * still to be done. */
void unfilled_find(struct compile *c, const struct guide *g);

#endif

/* reach.h - how far an op of a page reaches. */
#ifndef REACH_H
#define REACH_H

#include "layout/display.h"

/* Advance of a text, in points. */
double reach_text(const struct op *op);
/* Whether all its figures are finite. */
bool reach_is_finite(const struct op *op);
/* Its right edge, in points from the left of the page. */
double reach_right(const struct op *op);

#endif

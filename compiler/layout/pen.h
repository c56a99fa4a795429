/* pen.h - drawings as short texts: paths in a square of 100, y downward, with
 * the letters of SVG (M L H V C Z, absolute) and O x,y,r for a circle. */
#ifndef PEN_H
#define PEN_H

#include "layout/slab.h"

struct pen_square { /* where a drawing goes */
    double x, y, side;
};

/* Filled, or with a width (of the square of 100) stroked. */
void pen_draw(const struct composer *c, struct slab *s, struct pen_square q,
              const char *path, double width, struct colour colour);

#endif

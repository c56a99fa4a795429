/* worst.h - where in the ranges of its inputs a requirement fails. */
#ifndef WORST_H
#define WORST_H

#include "values/requirement.h"

/* "; worst at lamp.run 3.5 m, high.current 18.2 A"; empty where no input has a
 * width. `room` lies between the sides. What a circuit gives is told with the
 * inputs that move it most, at its end: "feed.loss 0.8 V (W1 3.5 m)"; where it
 * is the value itself, by these alone. */
const char *worst_words(struct arena *a, const struct requirement *r,
                        const struct quantity *room);

#endif

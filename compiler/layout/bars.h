/* bars.h - a reading before and after the work as two bars and its limit. */
#ifndef BARS_H
#define BARS_H

#include "layout/flow.h"

struct bars {
    struct text label;
    double found, left;     /* in one unit, from 0 up */
    double low, high;       /* the limit; infinite where there is no end */
    struct text found_text; /* as they print */
    struct text left_text, limit_text;
    struct text
        verdict; /* of the reading after the work: "passes"; or absent */
};

/* The longest bar, or the limit, fills the width. Each end of the limit is a
 * line across both bars, and what lies within the limit is a thick line below
 * them. */
void bars_set(struct flow *f, const struct bars *b, double x, double width,
              struct span at);

#endif

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
};

/* The longest bar, or the limit, fills the width. */
void bars_set(struct flow *f, const struct bars *b, double x, double width,
              struct span at);

#endif

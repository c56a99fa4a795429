/* spot.h - numbers with a unit in running text. */
#ifndef SPOT_H
#define SPOT_H

#include "base/text.h"

struct spot {
    size_t from, to;   /* bytes of the text */
    const char *value; /* as it may be written in braces: 5 to 10 A; 40 degC,
                          where C or F alone stands behind the number */
};

/* The first number with a unit from byte `at` on: 7/16 in, 5–10 A, 12-volt,
 * -5 V, 2½ in. Not part of a name (M8, 30-87, FR-12, 1/2-20), and not the word
 * in "2 in the box". */
bool spot_next(struct arena *a, struct text t, size_t at, struct spot *out);

#endif

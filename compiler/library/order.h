/* order.h - which guide is done before which, by their `after` and `before`. */
#ifndef ORDER_H
#define ORDER_H

#include "library/census.h"

struct arena;

/* Guides that wait for each other, each for the one before it and the first for
 * the last, from the first id on; none: count is 0. */
struct circle {
    const struct census_guide **guide;
    size_t count;
};
struct circle order_circle(const struct census *s);
/* Their ids: "CH-009, WH-007". */
const char *order_words(struct arena *a, const struct circle *c);

#endif

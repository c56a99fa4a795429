/* order.h - which guide is done before which, by their `after` and `before`. */
#ifndef ORDER_H
#define ORDER_H

#include "library/census.h"

/* Guides that wait for each other, each for the one before it and the first for
 * the last, from the first id on; how many, 0: none. `list` has room for all.
 */
size_t order_circle(const struct census *s, const struct census_guide **list);

#endif

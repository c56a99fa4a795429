/* interval.h - arithmetic on closed intervals, ends may be infinite. */
#ifndef INTERVAL_H
#define INTERVAL_H

#include "values/quantity.h"

#include <stdbool.h>

/* NAN at an end means undefined somewhere, and stays. */
struct ends interval_add(struct ends a, struct ends b);
struct ends interval_subtract(struct ends a, struct ends b);
/* 0 times infinity is 0: an input that does not move has no effect. */
struct ends interval_multiply(struct ends a, struct ends b);
/* All reals when b holds 0. */
struct ends interval_divide(struct ends a, struct ends b);
/* a ^ (numerator / denominator); for even roots of negatives NAN. */
struct ends interval_power(struct ends a, int numerator, int denominator);
struct ends interval_abs(struct ends a);
struct ends interval_min(struct ends a, struct ends b);
struct ends interval_max(struct ends a, struct ends b);
/* What lies in both; the nearer end of a where rounding parts them. */
struct ends interval_within(struct ends a, struct ends b);
/* The value of a node (no root) from those of its arguments. A calculation has
 * its ends at the corners that its trends tell; an input with neither trend is
 * stepped through and bounded outward. */
struct ends interval_node(const struct quantity *q, const struct ends *arg);
/* How much work that is, over the ranges of all roots: about 1, more where a
 * calculation is stepped through. */
size_t interval_cost(const struct quantity *q);

#endif

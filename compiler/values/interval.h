/* interval.h - arithmetic on closed intervals, ends may be infinite. */
#ifndef INTERVAL_H
#define INTERVAL_H

#include "values/quantity.h"

#include <stdbool.h>

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
struct ends interval_hull(struct ends a, struct ends b);
/* A calculation over ranges of its inputs: corners by the declared trends; an
 * input with neither trend is stepped through and bounded outward. */
struct ends interval_call(const struct calculation *c, const void *fixed,
                          const struct ends *input);

#endif

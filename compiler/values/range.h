/* range.h - the ends of a computed value over all its roots.
 *
 * The ends are taken over the box of the roots' ranges, each root one variable
 * wherever it is used: x - x is exactly 0, and a comparison looks at the
 * difference. Where the result moves one way with a root, that root sits at an
 * end; this is proved by the sign of the derivative over the box (interval
 * arithmetic backwards through the graph). What remains is bounded outward by
 * subdivision, so a range may be a little too wide, never too narrow. */
#ifndef RANGE_H
#define RANGE_H

#include "values/quantity.h"

/* Kept in the node. Not finite when the graph is undefined somewhere in the box
 * (division by a range with zero in it). */
struct ends range_ends(const struct quantity *q);

/* Where the low (or high) end lies: the value of each root there. Roots without
 * width are left out. Returns the count. For messages. */
struct corner {
    const struct quantity *root;
    double value;
};
size_t range_corner(struct arena *a, const struct quantity *q, bool high,
                    const struct corner **list);

/* Roots below q in order of their making, each once. */
size_t range_roots(struct arena *a, const struct quantity *q,
                   const struct quantity *const **list);

/* The value with given root values (same order as range_roots): for tests. */
double range_sample(struct arena *a, const struct quantity *q,
                    const double *root_value);

#endif

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

/* Kept in the node's bounds. Not finite when the graph is undefined somewhere
 * in the box (division by a range with zero in it). */
struct ends range_ends(const struct quantity *q);
/* Whether both ends are the same figure. */
bool range_is_single(const struct quantity *q);
/* The low end alone, where the high one is not asked. */
double range_low(const struct quantity *q);
/* The same, and values that are made from q later know it: where interval
 * arithmetic alone cannot tell that a divisor is never 0. */
struct ends range_confine(const struct quantity *q);

/* Where the low (or high) end lies: the value of each root there, in order of
 * their making. Roots without width are left out. Returns the count. */
struct corner {
    const struct quantity *root;
    double value;
};
size_t range_corner(struct arena *a, const struct quantity *q, bool high,
                    const struct corner **list);
/* The value with its roots at a corner, of this or another value; a root that
 * the corner does not name is at its nominal. */
double range_at(const struct quantity *q, const struct corner *corner,
                size_t count);

/* Roots below q in order of their making, each once. */
size_t range_roots(struct arena *a, const struct quantity *q,
                   const struct quantity *const **list);

#endif

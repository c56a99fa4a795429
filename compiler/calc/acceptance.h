/* acceptance.h - what an instrument must show for a limit to be met for sure.
 *
 * The true value is off the reading r by at most share * |r| + fixed. A limit
 * is drawn in by that much (guarded acceptance): with the reading within the
 * acceptance limits the value is within the limits. Source: JCGM
 * 106:2012, 8.3.2 (from memory); ILAC-G8:09/2019, 4.1: acceptance limit = limit
 * less guard band.
 *
 * All in one unit, any. `resolution` is the step of the display, or 0: not
 * known. */
#ifndef ACCEPTANCE_H
#define ACCEPTANCE_H

struct accuracy {
    double share; /* of the reading, 0 to below 1 */
    double fixed; /* digits of the display and others, not below 0 */
};

/* The highest reading at which the value is at most `limit`; rounded down to a
 * step of the display. */
double acceptance_most(double limit, struct accuracy a, double resolution);
/* The lowest reading at which the value is at least `limit`; rounded up. */
double acceptance_least(double limit, struct accuracy a, double resolution);

#endif

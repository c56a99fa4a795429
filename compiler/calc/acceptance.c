/* acceptance.c - what an instrument must show for a limit to be met for sure.
 */
#include "calc/acceptance.h"

#include "calc/rounding.h"

/* r + share * |r| + fixed = limit, for r. */
double acceptance_most(double limit, struct accuracy a, double resolution) {
    double rest = limit - a.fixed;
    double reading = rest / (rest < 0 ? 1 - a.share : 1 + a.share);
    return resolution > 0 ? round_step(reading, resolution, ROUND_DOWN)
                          : reading;
}

/* The same below 0. */
double acceptance_least(double limit, struct accuracy a, double resolution) {
    return -acceptance_most(-limit, a, resolution);
}

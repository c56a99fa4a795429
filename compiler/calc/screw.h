/* screw.h - tapping screws in sheet and plastic, wood screws: pilot holes and
 * sanity ranges. The ranges are to check an author's figure against, never to
 * make one. */
#ifndef SCREW_H
#define SCREW_H

#include "calc/calculation.h"

#include <stddef.h>

struct tapping_screw {
    const char *name;    /* "ST4.2", "#8" */
    double diameter;     /* m */
    double pitch;        /* m */
    double root;         /* m */
    double light, heavy; /* m, pilot hole in thin and thick metal; NAN */
    double breaking;     /* N m, least; NAN when not known */
    double low, high;    /* N m, sanity range of the torque; NAN */
    const char *source;
};
const struct tapping_screw *tapping_screw_find(const char *name, size_t len);
const struct tapping_screw *tapping_screw_at(size_t index);

enum screw_result {
    /* N: pull-out from plastic, pi Dp L tau. tau, L. fixed: tapping_screw */
    SCREW_PULL_OUT,
    /* N m that strips it: F r (p + 2 f r)/(2 r - f p). F, f. fixed: the same */
    SCREW_STRIP_TORQUE,
    /* N a wood screw holds, side grain: allowable 2850 G^2 D L (lbf, in). G, D,
     * L. fixed: NULL */
    SCREW_WOOD,
    SCREW_RESULTS
};
const struct calculation *screw_calculation(enum screw_result r);

#endif

/* screw.h - tapping screws in sheet and plastic, wood screws: pilot holes and
 * sanity ranges. They are to check an author's figure against, never to make
 * one. */
#ifndef SCREW_H
#define SCREW_H

#include "calc/calculation.h"

#include <stdbool.h>
#include <stddef.h>

struct tapping_screw {
    const char *name;             /* "ST4.2", "#8 AB" */
    const char *former;           /* "#8" of the metric ones; NULL */
    double diameter, pitch, root; /* m */
    double breaking;  /* N m, least; half of it is the most to tighten with
                         (DIN 7975). NAN when not known */
    double low, high; /* N m, sanity range into metal; NAN */
    const char *source;
};
const struct tapping_screw *tapping_screw_find(const char *name, size_t len);
const struct tapping_screw *tapping_screw_at(size_t index);

/* m, pilot hole; NAN when the table has none. Sheet thickness in m. */
double screw_pilot_sheet(const struct tapping_screw *s, double thickness);
double screw_pilot_plastic(const struct tapping_screw *s, bool thermoset);
double screw_pilot_inch(const struct tapping_screw *s, bool heavy);
const char *screw_pilot_source(void);

enum screw_result {
    /* N: pull-out from plastic. tau, L. fixed: const struct tapping_screw * */
    SCREW_PULL_OUT,
    /* N m that strips it. F, f. fixed: the same */
    SCREW_STRIP_TORQUE,
    /* N that a wood screw may bear, side grain. G, D, L. fixed: NULL */
    SCREW_WOOD,
    SCREW_RESULTS
};
const struct calculation *screw_calculation(enum screw_result r);

#endif

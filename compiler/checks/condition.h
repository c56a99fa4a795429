/* condition.h - what calculations must show for a row of the hazard catalogue:
 * "fault current >= 200 A". */
#ifndef CONDITION_H
#define CONDITION_H

#include "base/text.h"

#include <stdbool.h>

struct buf;

enum measure {
    MEASURE_BATTERY,     /* a wire on a source below 50 V, or on one unknown */
    MEASURE_VOLTAGE,     /* of a source or behind a wire */
    MEASURE_FAULT,       /* current into a short at the load side of a fuse */
    MEASURE_SURFACE,     /* temperature of a wire under load */
    MEASURE_ENERGY,      /* stored in a capacitor */
    MEASURE_ENERGY_50V,  /* the same, in one charged to 50 V or more */
    MEASURE_MASS,        /* of a part */
    MEASURE_LITHIUM,     /* a battery */
    MEASURE_OVERCHARGE,  /* a source above the limits of its battery */
    MEASURE_SAFETY_DROP, /* share of the voltage lost before a safety load */
    MEASURE_STAINLESS,   /* a bolt by its grade, or a thread by its condition */
    MEASURE_PRESSURE,    /* of oil: a value that has "hydraulic" in its name */
    MEASURE_UNFUSED,     /* H05, where an override lets it through */
    MEASURE_STANDS,      /* a preliminary block that states some */
    MEASURE_COUNT
};

struct condition {
    enum measure measure;
    double bound; /* SI; 0 for a measure without a figure */
    bool above;   /* `>`: the bound itself does not count */
};

/* false when it is none; then `near` has the measure nearest to it. */
bool condition_read(struct text t, struct condition *out, struct nearest *near);
bool condition_met(const struct condition *c, double value);

#endif

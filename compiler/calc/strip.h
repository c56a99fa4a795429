/* strip.h - will the thread strip before the bolt breaks: engagement in a nut
 * or tapped hole, and the length of a wire insert. */
#ifndef STRIP_H
#define STRIP_H

#include "calc/calculation.h"
#include "calc/thread.h"

#include <stddef.h>

/* `fixed` */
struct engagement {
    struct thread thread;
    double bolt_tensile; /* Pa */
    double hole_shear;   /* Pa, shear strength of the tapped material */
};

enum strip_result {
    /* N that strips the tapped hole: ASn L tau. L */
    STRIP_HOLE,
    /* N that strips the bolt's thread: ASs L Rm/2. L */
    STRIP_BOLT,
    /* m of engagement from which on the bolt breaks first: the larger of 2
     * As/ASs and As Rm/(ASn tau). No inputs */
    STRIP_LENGTH,
    STRIP_RESULTS
};
/* NAN where thread_shear has no limits for the thread. */
const struct calculation *strip_calculation(enum strip_result r);

/* Length of engagement, in diameters, that practice asks of a material, the
 * share of the torque for a steel nut that it may have, and what strips it: the
 * shear strength of the weakest usual grade, for STRIP_HOLE, and the share of
 * that load which a joint may use. */
struct engagement_rule {
    const char *into; /* "steel", "aluminium", "cast iron", ... */
    double diameters;
    double torque;
    const char *source;
    double shear; /* Pa; 0: it holds no machine thread at all */
    double use;   /* share of the stripping load */
    const char *shear_source;
    double held; /* diameters that do where the stripping load is computed and
                    holds: common practice, no source; 0: no fewer */
};
const struct engagement_rule *engagement_find(const char *into, size_t len);
const struct engagement_rule *engagement_at(size_t index);

/* Wire insert: length in diameters for the shear strength of the parent and the
 * tensile strength of the bolt, Pa; the next lower parent row and next higher
 * bolt column of a maker's table. NAN when the table does not cover the pair.
 */
double insert_length(double parent_shear, double bolt_tensile);
const char *insert_source(void);

#endif

/* strip.h - will the thread strip before the bolt breaks: engagement in a
 * tapped hole, and the length of a wire insert. */
#ifndef STRIP_H
#define STRIP_H

#include "calc/calculation.h"
#include "calc/grade.h"
#include "calc/thread.h"

/* `fixed` */
struct engagement {
    struct thread thread;
    double bolt_tensile; /* Pa */
    double hole_shear;   /* Pa, shear strength of the tapped material */
};

enum strip_result {
    /* N that strips the tapped hole: AS_n L tau. L */
    STRIP_HOLE,
    /* N that strips the bolt's thread: AS_s L 0.577 Rm. L */
    STRIP_BOLT,
    /* m of engagement at which the bolt breaks first. No inputs */
    STRIP_LENGTH,
    STRIP_RESULTS
};
const struct calculation *strip_calculation(enum strip_result r);

/* Length of engagement, in diameters, that practice asks of a material. */
struct engagement_rule {
    const char *into; /* "steel", "cast iron", "aluminium", "plastic" */
    double diameters;
    double shear;  /* Pa, typical shear strength; NAN when not given */
    double torque; /* share of the torque for steel that is allowed */
    const char *source;
};
const struct engagement_rule *engagement_find(const char *into, size_t len);
const struct engagement_rule *engagement_at(size_t index);

/* Wire insert: length in diameters for parent shear strength and bolt tensile
 * strength, Pa; the next lower parent and next higher bolt row. NAN when the
 * maker's table does not cover the pair. */
double insert_length(double parent_shear, double bolt_tensile);
extern const char insert_source[];

#endif

/* joint.h - what a bolt holds besides itself: nut, tapped hole, galling. */
#ifndef JOINT_H
#define JOINT_H

#include "calc/torque.h"
#include "values/model.h"

struct joint_case {
    const struct block *block;
    size_t variant;
    const struct torque_joint *joint;
    const struct nut_factor *factor; /* of the thread's condition, or NULL */
    const struct quantity *preload;  /* NULL: not known */
};

/* Requirements by the settings `nut`, `into` and `condition`. */
void joint_require(struct values *v, const struct joint_case *j);

#endif

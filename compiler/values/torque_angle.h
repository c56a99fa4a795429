/* torque_angle.h - a bolt that is turned on by an angle once it has its torque.
 *
 * By torque and angle, or by turn of nut, the torque is the first stage only,
 * and says nothing of the clamping force after the angle: the angle takes the
 * bolt to its yield point or past it. What
 * the bolt itself bears is then what its thread, nut and hole must hold. */
#ifndef TORQUE_ANGLE_H
#define TORQUE_ANGLE_H

#include "calc/torque.h"
#include "values/model.h"

struct torque_angle {
    bool follows;
    const struct value *angle; /* NULL: it follows, and is not written */
};

/* By the settings `angle` and `tightened`; false after a message. */
bool torque_angle_read(struct values *v, const struct block *b, size_t variant,
                       struct torque_angle *out);
/* "25 N·m, then 90°, then 90°": the angle stands behind a torque wherever it
 * prints. */
struct value torque_angle_behind(const struct torque_angle *t,
                                 struct quantity *torque);
/* "16.7 kN before the angle": no quantity, that no check takes it for the
 * clamping force of the finished joint. */
struct value torque_angle_before(struct values *v, const struct quantity *q);
/* N, from what the bolt yields at to what it breaks at; NULL without a grade.
 */
const struct quantity *torque_angle_strength(struct values *v,
                                             const struct block *b,
                                             size_t variant,
                                             const struct torque_joint *joint);

#endif

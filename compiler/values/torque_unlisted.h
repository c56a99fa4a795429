/* torque_unlisted.h - a maker's figure for a thread condition that the table of
 * friction lacks. */
#ifndef TORQUE_UNLISTED_H
#define TORQUE_UNLISTED_H

#include "values/joint.h"

/* The least clamping force that the torque can make, at the greatest friction
 * of the table: what even that is too much for is refused, here the bolt, by
 * joint_require() nut and hole. What holds for no friction of the table is
 * asked: the condition is misspelt, or the author knows more than the table.
 * `torque` is what clamps; the joint has a thread. */
const struct quantity *torque_unlisted_require(struct values *v,
                                               const struct joint_case *j,
                                               const struct quantity *torque);
#endif

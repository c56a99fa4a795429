/* torque_seat.h - what the head of a bolt, or its nut, presses on. */
#ifndef TORQUE_SEAT_H
#define TORQUE_SEAT_H

#include "values/joint.h"

/* Requirement by the setting `under head`: the seat bears the preload of `j`.
 * Nothing where that setting, or the preload, is not there. */
void torque_seat_require(struct values *v, const struct joint_case *j);

#endif

/* setting_torque.h - settings of a bolted joint: a wrench, an angle in stages.
 */
#ifndef SETTING_TORQUE_H
#define SETTING_TORQUE_H

#include "values/model.h"

/* Each is BAD after a message; `t` is the text behind the colon. */
struct value setting_wrench(struct values *v, const struct slot *s,
                            struct text t, size_t variant);
/* The quantity is the sum; the text names its stages where it has several. */
struct value setting_stages(struct values *v, const struct slot *s,
                            struct text t, size_t variant);

#endif

/* setting_torque.h - settings of a bolted joint: a wrench, an angle in stages.
 */
#ifndef SETTING_TORQUE_H
#define SETTING_TORQUE_H

#include "values/figure.h"
#include "values/model.h"

/* Each is BAD after a message; `t` is the text behind the colon. */
struct value setting_wrench(struct values *v, const struct slot *s,
                            struct text t, size_t variant);
/* The quantity is the sum of the stages. */
struct value setting_stages(struct values *v, const struct slot *s,
                            struct text t, size_t variant);
/* The stages of such a sum, each with its own range where the form has one:
 * "90°, then 45° (40° to 50°)". Unit NULL: each in its own. */
const char *setting_stages_print(struct arena *a, const struct quantity *sum,
                                 const struct unit *unit,
                                 enum figure_form form);

#endif

/* torque_wrench.h - what the wrench of a `torque` block is set to. */
#ifndef TORQUE_WRENCH_H
#define TORQUE_WRENCH_H

#include <stddef.h>

struct block;
struct quantity;
struct torque_angle;
struct values;

/* What the wrench shows when an extension turns the fastener; the torque itself
 * without one. NULL after a message. */
struct quantity *torque_wrench_shows(struct values *v, const struct block *b,
                                     size_t variant, struct quantity *torque);
/* The setting is a decision: a step of the tool, within its range. Nothing
 * where the block names no wrench. */
void torque_wrench_set(struct values *v, const struct block *b, size_t variant,
                       const struct quantity *torque,
                       const struct torque_angle *angle);

#endif

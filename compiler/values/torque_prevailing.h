/* torque_prevailing.h - the drag of a locking nut in a `torque` block: what the
 * wrench shows with it, and what of that clamps. */
#ifndef TORQUE_PREVAILING_H
#define TORQUE_PREVAILING_H

#include "calc/torque.h"
#include "values/model.h"

struct torque_drag {
    const struct quantity *drag; /* NULL: the nut turns freely */
    enum prevailing_rule rule;
};

/* The settings `prevailing` and `prevailing rule`, for this torque, a maker's
 * figure or one that was worked out; false after a message. */
bool torque_prevailing_read(struct values *v, const struct block *b,
                            size_t variant, const struct quantity *torque,
                            struct torque_drag *out);

/* What the wrench shows at the end. */
struct quantity *torque_prevailing_shown(struct values *v,
                                         const struct block *b, size_t variant,
                                         const struct torque_drag *d,
                                         struct quantity *torque);
/* What makes the clamping force. */
const struct quantity *torque_prevailing_clamps(struct values *v,
                                                const struct block *b,
                                                size_t variant,
                                                const struct torque_drag *d,
                                                const struct quantity *torque);

#endif

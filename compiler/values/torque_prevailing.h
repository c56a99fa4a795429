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

/* The settings `prevailing` and `prevailing rule`; false after a message. */
bool torque_prevailing_read(struct values *v, const struct block *b,
                            size_t variant, struct torque_drag *out);
/* How much more than the torque clamps where the nut drags least of its range,
 * N m; NULL: no more. */
const struct quantity *torque_prevailing_spare(struct values *v,
                                               const struct torque_drag *d);

/* What the wrench shows at the end: one figure for all nuts of the range, with
 * the middle of it. NULL after a message: the drag leaves nothing that clamps.
 */
struct quantity *torque_prevailing_shown(struct values *v,
                                         const struct block *b, size_t variant,
                                         const struct torque_drag *d,
                                         struct quantity *torque);
/* What of that makes the clamping force, by the drag of each nut. */
const struct quantity *torque_prevailing_clamps(struct values *v,
                                                const struct block *b,
                                                size_t variant,
                                                const struct torque_drag *d,
                                                const struct quantity *shown);

#endif

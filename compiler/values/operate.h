/* operate.h - arithmetic on values: units checked, ranges finite, or a message.
 *
 * Each takes the place where its expression began (`from`, in the cursor's
 * text) for the message and for the place of the result. */
#ifndef OPERATE_H
#define OPERATE_H

#include "values/expression.h"

/* Adding and subtracting: one dimension; a temperature on a scale takes a
 * difference, and two of them give one. */
struct value operate_add(struct expression *x, enum quantity_op op,
                         struct value left, struct value right, size_t from);
/* Multiplying and dividing: no temperature on a scale, no divisor whose range
 * has 0 in it. */
struct value operate_multiply(struct expression *x, enum quantity_op op,
                              struct value left, struct value right,
                              size_t from);
/* A whole exponent, not 0. */
struct value operate_power(struct expression *x, struct value base,
                           int exponent, size_t from);
struct value operate_root(struct expression *x, struct value of, size_t from);
struct value operate_abs(struct expression *x, struct value of, size_t from);
/* The smaller or the larger of two. */
struct value operate_extreme(struct expression *x, enum quantity_op op,
                             struct value left, struct value right,
                             size_t from);
/* Both are quantities of one dimension; else false after a message. */
bool operate_comparable(struct expression *x, const struct value *left,
                        const struct value *right, size_t from);
bool operate_is_quantity(struct expression *x, const struct value *value,
                         size_t from, const char *doing);
/* A note where a value is written that a name brought here. */
void operate_note_origin(struct expression *x, const struct quantity *q);
const char *operate_type_name(enum value_type t); /* "a wire size" */

#endif

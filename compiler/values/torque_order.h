/* torque_order.h - the order in which the fasteners of a joint are tightened,
 * as its `pattern` and `count` say. */
#ifndef TORQUE_ORDER_H
#define TORQUE_ORDER_H

#include "base/text.h"
#include "calc/pattern.h"

#include <stdbool.h>
#include <stddef.h>

struct block;
struct values;

/* The first word or phrase between the commas of a `pattern` that names an
 * order: "star, in two rounds". false: the words are the author's own. */
bool torque_order_find(struct text words, enum pattern *out);
/* false after a message about a word that is nearly an order. */
bool torque_order_check(struct values *v, const struct block *b,
                        size_t variant);
/* Sets the field `order`, "1 to 6 as drawn for nuts": the drawing numbers the
 * places by their turn, and words that counted the places otherwise would
 * contradict it. A pattern that is not drawn for so many is a slip. */
void torque_order_set(struct values *v, const struct block *b, size_t variant);

#endif

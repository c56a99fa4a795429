/* circuit_duty.h - how long a load of a circuit is on, as it says. */
#ifndef CIRCUIT_DUTY_H
#define CIRCUIT_DUTY_H

#include "base/text.h"

#include <stdbool.h>
#include <stddef.h>

struct block;
struct circuit_element;
struct values;

/* Whether the line of a load without a block ends with `intermittent` or
 * `continuous`, as its third word. */
bool circuit_duty_is_said(const struct circuit_element *load);
/* Its block's `duty`, or that word; absent: it does not say. */
struct text circuit_duty_of(struct values *v, const struct block *circuit,
                            const struct circuit_element *load, size_t variant);

#endif

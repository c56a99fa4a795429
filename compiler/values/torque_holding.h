/* torque_holding.h - what a joint that holds the vehicle together states. */
#ifndef TORQUE_HOLDING_H
#define TORQUE_HOLDING_H

#include "values/model.h"

/* Requirements by the setting `joint`: the maker's figure, and of a wheel when
 * it is tightened again. */
void torque_holding_require(struct values *v, const struct block *b,
                            size_t variant);

#endif

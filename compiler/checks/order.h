/* order.h - steps that stand in a dangerous order. */
#ifndef ORDER_H
#define ORDER_H

#include "checks/catalogue.h"
#include "checks/judge.h"
#include "checks/walk.h"

/* Each rule of the catalogue in each variant; a step out of order is a message
 * with both places, unless an override names the rule. */
void order_check(struct compile *c, const struct guide *g,
                 const struct values *v, const struct catalogue *k,
                 const struct steps *steps, const struct verdicts *judged);

#endif

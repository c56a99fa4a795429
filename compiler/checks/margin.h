/* margin.h - what is left between a figure and its limit, in words. */
#ifndef MARGIN_H
#define MARGIN_H

#include "calc/unit.h"
#include "values/requirement.h"

/* Unit and decimals in which both sides are told. */
const struct unit *margin_unit(const struct requirement *r, int *decimals);

/* Of a requirement that holds: the share of the limit, "54 %". `share` is that,
 * of its SI value. Of a temperature, whose zero is far below, the degrees
 * between the printed figures, "17 °C". */
const char *margin_text(struct arena *a, const struct requirement *r,
                        const struct requirement_worst *w, double share);

#endif

/* schematic_rung.h - which points the rungs of a drawing join, and which bars
 * lie in their way. */
#ifndef SCHEMATIC_RUNG_H
#define SCHEMATIC_RUNG_H

#include "layout/schematic_plan.h"

/* Fills in the points of each rung; each goes down or up its whole length. */
void rung_find_points(struct arena *a, struct plan *p);
/* Where it begins and ends, as the bars lie now. */
size_t rung_highest(const struct plan_rung *r);
size_t rung_lowest(const struct plan_rung *r);
double rung_top(const struct plan *p, const struct plan_rung *r);
double rung_bottom(const struct plan *p, const struct plan_rung *r);
bool rung_joins(const struct plan_rung *r, size_t point);
/* Whether it goes past a bar that it is not joined to and that lies over its
 * column. */
bool rung_crosses(const struct plan *p, const struct plan_rung *r,
                  size_t point);

#endif

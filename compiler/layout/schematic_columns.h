/* schematic_columns.h - in which column each rung of a drawing stands, once it
 * is known how high its bars lie.
 *
 * An order of the rungs costs 1000 for each rung that crosses a bar that it is
 * not joined to, and 1 for each column that a bar is long. For n rungs the time
 * is of the order of n * n at the most. */
#ifndef SCHEMATIC_COLUMNS_H
#define SCHEMATIC_COLUMNS_H

#include "layout/schematic_plan.h"

/* Fills in columns of rungs and bars, and the crossings: from the order in
 * which the rungs are written each goes where it costs least; then rungs that
 * hang below each other share a column where that costs no crossing. */
void schematic_columns(struct arena *a, struct plan *p);

#endif

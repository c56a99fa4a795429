/* schematic_order.h - which of two points of a circuit lies above the other in
 * its drawing: the order in which the current meets them.
 *
 * From the shape of the circuit and its supplies alone. A path that was written
 * against the current is turned: one from a minus post to a point that plus
 * feeds, one from a point that nothing feeds up to one that is fed, and
 * whatever would close a circle. All else lies as it was written, from above to
 * below. */
#ifndef SCHEMATIC_ORDER_H
#define SCHEMATIC_ORDER_H

#include "layout/schematic_plan.h"

/* Fills in `up` of each span, so that no way down leads back to where it began:
 * plus posts lie above their minus posts, and every point that plus reaches
 * without passing minus lies below a plus post and above the minus posts that
 * it is joined to. */
void schematic_order(struct arena *a, struct plan *p);

#endif

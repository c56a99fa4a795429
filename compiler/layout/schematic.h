/* schematic.h - the diagram of a circuit: its symbols, wires and test points.
 */
#ifndef SCHEMATIC_H
#define SCHEMATIC_H

#include "layout/leaf.h"

/* Whether there is one to draw. */
bool schematic_any(const struct leaf *l);
/* Each circuit of the guide, its diagram with caption and key. One that is too
 * large for the page stands on several sheets below each other; what goes on
 * has an arrow there, a bar its name on both sheets, another line a letter. One
 * as found and the next, the one after the job, stand beside each other where
 * the page is wide enough. What stands on one sheet may move among the tables:
 * see drift.h. */
void schematic_set(struct leaf *l);

#endif

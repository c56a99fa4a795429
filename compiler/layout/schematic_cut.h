/* schematic_cut.h - where a drawing that is too large for a page is cut. */
#ifndef SCHEMATIC_CUT_H
#define SCHEMATIC_CUT_H

#include "layout/schematic_draw.h"

/* Whether it is too tall for the room that it has. */
bool schematic_is_tall(const struct diagram *d);
/* Pieces of so many columns, each from top to bottom; one that is too tall is
 * cut where no element and no bar is in the way, or else where no bar is. What
 * shows nothing but lines that go through is left out. */
struct piece *schematic_cut(const struct diagram *d, size_t columns,
                            size_t *count);
/* Where a rung is cut that goes past a height: there, or behind the element
 * that is in the way. NAN: it does not go past. */
double schematic_cut_rung(const struct diagram *d, size_t rung, double y);
/* How far elements of the sheet that is drawn reach below its end. */
double schematic_overhang(const struct diagram *d);

#endif

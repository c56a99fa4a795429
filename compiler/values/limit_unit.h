/* limit_unit.h - the unit that a limit must have, by what it is the limit of.
 */
#ifndef LIMIT_UNIT_H
#define LIMIT_UNIT_H

#include "base/text.h"

/* "voltage drop, stud to battery": "V". NULL: no word of it, up to a comma,
 * names a quantity that has a unit, or one anywhere says that it is a ratio or
 * a count: "length of thread, turns". */
const char *limit_unit_wanted(struct text characteristic);

#endif

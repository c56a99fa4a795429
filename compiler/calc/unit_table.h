/* unit_table.h - the rows behind unit.c. */
#ifndef UNIT_TABLE_H
#define UNIT_TABLE_H

#include "calc/unit.h"

/* A spelling beside a unit's name, in the plain form that unit.c compares:
 * ASCII, '.' for a product, digits for powers. */
struct unit_spelling {
    const char *spelling;
    const char *name; /* of the unit */
};

extern const struct unit unit_table[]; /* ends with a NULL name */
extern const struct unit_spelling unit_spelling_table[]; /* likewise */

#endif

/* size_table.h - the rows behind size.c. */
#ifndef SIZE_TABLE_H
#define SIZE_TABLE_H

#include "calc/size.h"

struct size_rows {
    const struct wire_size *row; /* by rising area */
    size_t count;
};
extern const struct size_rows size_table[WIRE_SYSTEMS];

#endif

/* rows.h - rows that cannot be meant: parts and readings. */
#ifndef ROWS_H
#define ROWS_H

#include "stages.h"

/* Two limits of one id for one variant; a part without quantity, one that the
 * catalogue does not know and nobody describes, an interchange number without
 * its grade. */
void rows_check(struct compile *c, const struct guide *g,
                const struct values *v);

#endif

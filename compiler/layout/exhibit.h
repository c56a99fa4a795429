/* exhibit.h - blocks that print where they stand: panels, tables, figures. The
 * others are data for the parts that gather them. */
#ifndef EXHIBIT_H
#define EXHIBIT_H

#include "layout/prose.h"

void exhibit_set(struct leaf *l, const struct block *b,
                 const struct spot *spot);

#endif

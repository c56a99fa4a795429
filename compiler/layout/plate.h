/* plate.h - images on the page: a figure block with its numbered marks and key,
 * and an image that stands in a paragraph of its own. */
#ifndef PLATE_H
#define PLATE_H

#include "layout/prose.h"

void plate_set_block(struct leaf *l, const struct block *b,
                     const struct spot *spot);
/* The alternate text becomes the caption. */
void plate_set_image(struct leaf *l, const struct inlines *image,
                     const struct spot *spot);

#endif

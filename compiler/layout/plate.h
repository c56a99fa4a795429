/* plate.h - images on the page: a figure block with its numbered marks and key,
 * and an image that stands in a paragraph of its own. */
#ifndef PLATE_H
#define PLATE_H

#include "layout/prose.h"

/* Where its image differs by variant, one figure for each. */
void plate_set_block(struct leaf *l, const struct block *b,
                     const struct spot *spot);
/* A paragraph's only image, for the variants of `inner`; the alternate text
 * becomes the caption. */
void plate_set_image(struct leaf *l, const struct node *n,
                     const struct inlines *image, const struct spot *spot,
                     const struct spot *inner);

#endif

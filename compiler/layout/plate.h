/* plate.h - images on the page: a figure block with its numbered marks and key,
 * an image that stands in a paragraph of its own, and the shop's logo. */
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

/* The template's logo at its height; NULL when it has none or after a message.
 */
struct slab *plate_logo(struct leaf *l);

#endif

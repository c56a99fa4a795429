/* gallery.h - the images of a guide or template: each file that a `figure`, a
 * paragraph or the head of a template names is opened and checked once, while
 * the sources are read, so that one run tells what is wrong with it together
 * with all the rest.
 *
 * Paths start at procedures/, where guides stand: so other readers of Markdown,
 * which start at the file, find the image too. */
#ifndef GALLERY_H
#define GALLERY_H

#include "source/tree.h"

struct compile;
struct image;

/* Fills g->hangings, in the order of the guide. A file that cannot be used is
 * reported where it is named first. */
void gallery_read(struct compile *c, struct guide *g);
/* By its path as written; NULL when it was reported. */
const struct image *gallery_find(const struct guide *g, struct text path);

#endif

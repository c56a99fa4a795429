/* connector.h - the face of a connector, as a `pinout` block tells it. */
#ifndef CONNECTOR_H
#define CONNECTOR_H

#include "layout/prose.h"

/* The face, each cavity with its name, the colour of its wire and the letters
 * of that, at spot->x in a slab of its own; how far to the right it reaches.
 * NULL: the block tells none. Reports a row whose cavity is not on the face, or
 * there twice, and a colour that is not known. */
struct slab *connector_face(struct leaf *l, const struct block *b,
                            const struct spot *spot, double *right);
/* "Connector C1, seen from the wire side" below it, in lines of this width. */
void connector_caption(struct leaf *l, struct slab *s, const struct block *b,
                       double x, double width);

#endif

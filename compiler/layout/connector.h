/* connector.h - the face of a connector, as a `pinout` block tells it. */
#ifndef CONNECTOR_H
#define CONNECTOR_H

#include "layout/prose.h"

/* The face, each cavity with its name, the colour of its wire and the letters
 * of that. Reports a row whose cavity is not on the face, or there twice, and a
 * colour that is not known. */
void connector_set(struct leaf *l, const struct block *b,
                   const struct spot *spot);

#endif

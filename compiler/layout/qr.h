/* qr.h - a QR code drawn as rectangles. */
#ifndef QR_H
#define QR_H

#include "layout/slab.h"

/* Into a square with the quiet zone inside; false when the text is too long. */
bool qr_draw(const struct composer *c, struct slab *s, double x, double y,
             double side, const char *payload);

#endif

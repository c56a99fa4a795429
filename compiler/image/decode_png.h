/* decode_png.h - samples of a PNG, by libpng's simplified interface: the rest
 * of libpng ends the program on a damaged file unless each call is fenced in.
 */
#ifndef DECODE_PNG_H
#define DECODE_PNG_H

#include "image/image.h"
#include "image/shrink.h"

/* Everything before the samples; finds the channels. */
bool decode_png_head(struct image *im, struct image_report *report);
/* All rows, on white, to 8 bits of sRGB. The memory for them is the arena's. */
bool decode_png_rows(struct arena *a, const struct image *im, struct shrink *to,
                     struct image_report *report);

#endif

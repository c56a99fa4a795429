/* decode_jpeg.h - samples of a JPEG, by libjpeg. */
#ifndef DECODE_JPEG_H
#define DECODE_JPEG_H

#include "image/image.h"
#include "image/shrink.h"

/* Size, channels, turn, and all samples gone through once, an eighth as wide
 * and high as that costs less; a warning is damage. Ends im->len behind the
 * image. */
bool decode_jpeg_check(struct arena *a, struct image *im,
                       struct image_report *report);
bool decode_jpeg_rows(struct arena *a, const struct image *im,
                      struct shrink *to, struct image_report *report);

#endif

/* chunk.h - the chunks of a PNG file, gone through before it is decoded. */
#ifndef CHUNK_H
#define CHUNK_H

#include "image/image.h"

/* Whether the file is whole: signature, IHDR first, IEND last, each checksum
 * right. libpng looks at none behind the pixels, and throws a damaged chunk of
 * the lesser sort (one that says which colour is clear) away without a failure.
 * Finds width and height, and where the image ends in the file. */
bool chunk_check(struct image *im, struct image_report *report);
/* Whether its samples are 8 bits each, grey or red, green and blue, in rows
 * from the top, and no chunk changes what they mean: no clear colour, no gamma
 * or profile. The file was checked. */
bool chunk_passes(const struct image *im);
/* The coded samples: what its IDAT chunks hold, put together. */
unsigned char *chunk_samples(struct arena *a, const struct image *im,
                             size_t *len);

#endif

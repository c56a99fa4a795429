/* shrink.h - rows of samples to fewer and shorter ones by area averaging. */
#ifndef SHRINK_H
#define SHRINK_H

#include <stddef.h>

struct arena;
struct shrink;

struct shrink_size {
    unsigned width, height; /* in pixels, from 1; the product below 2^31 */
};

/* `to` is no larger than `from`, each way. */
struct shrink *shrink_new(struct arena *a, struct shrink_size from,
                          struct shrink_size to, unsigned channels);
/* The next row of the large image, from the top. */
void shrink_row(struct shrink *s, const unsigned char *row);
/* The small image, complete when all rows were given. Each sample is the mean
 * over the area that it covers, to the nearest, parts of samples in proportion.
 * The mean is over the coded values and not over light: lines that get thinner
 * than a pixel stay as dark as they were drawn. */
const unsigned char *shrink_samples(const struct shrink *s);

#endif

/* encode.h - samples to what a PDF holds. */
#ifndef ENCODE_H
#define ENCODE_H

#include <stddef.h>

struct arena;

struct encode_rows { /* 8 bits a sample, without gaps */
    const unsigned char *samples;
    unsigned width, height;
    unsigned channels; /* 1 grey, 3 RGB */
};

/* Without loss. */
unsigned char *encode_flate(struct arena *a, struct encode_rows rows,
                            size_t *len);
/* As a JPEG, at quality 85 of libjpeg's scale. */
unsigned char *encode_jpeg(struct arena *a, struct encode_rows rows,
                           size_t *len);

#endif

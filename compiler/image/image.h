/* image.h - PNG and JPEG files of the library: known, checked, made small.
 *
 * Nothing in a file is believed. Sizes are looked at before memory is asked
 * for, the checksums of a PNG and the whole of a JPEG are gone through when it
 * is opened, and a warning of a decoder is damage: a figure that is partly
 * right misleads. The libraries are met in decode_*.c and encode.c only. */
#ifndef IMAGE_H
#define IMAGE_H

#include "base/place.h"
#include "image/picture.h"

#include <stdbool.h>

struct arena;
struct diags;

enum {
    IMAGE_BYTES_MAX = 16 * 1024 * 1024,
    IMAGE_PIXELS_MAX = 40 * 1000 * 1000,
    IMAGE_SIDE_MAX = 65500, /* as libjpeg's */
};

enum image_format { IMAGE_PNG, IMAGE_JPEG };

enum image_fault {
    IMAGE_GOOD,
    IMAGE_UNKNOWN,  /* neither PNG nor JPEG */
    IMAGE_DAMAGED,  /* cut short, a wrong checksum, nonsense inside */
    IMAGE_LARGE,    /* more bytes or pixels than those above */
    IMAGE_INKS,     /* CMYK: it depends on a press that nobody names */
    IMAGE_UNCOMMON, /* 12 bits a sample, lossless, ...: few readers show it */
};

/* What is wrong, in words that go behind the file's name. */
struct image_report {
    enum image_fault fault;
    char words[160];
};

struct image {
    enum image_format format;
    const unsigned char *bytes; /* the file; not copied */
    size_t len;                 /* without what stands behind the image */
    unsigned width, height;     /* in pixels, as stored */
    unsigned channels;          /* 1: grey, 3: colours */
    unsigned turn; /* Exif orientation: 1 upright, 3 upside down, 6 and 8 on its
                      side, even ones and 5, 7 mirrored */
    bool passes;   /* a PDF may hold its samples as they are coded */
};

/* Knows the file and checks it. NULL after a fault. */
struct image *image_open(struct arena *a, const unsigned char *bytes,
                         size_t len, struct image_report *report);
/* Size as it is looked at, the turn applied. */
unsigned image_width(const struct image *im);
unsigned image_height(const struct image *im);

/* The image with no more than width x height pixels as it is looked at (from 1
 * up), each the mean of the area that it covers; never enlarged. Transparent
 * parts become white, as the paper is. What is kept of a PNG is lossless. What
 * passes and is not made smaller stays coded as it is, without its metadata
 * (place, camera, preview: nobody's business on a sheet). NULL after a fault.
 */
struct picture *image_fit(struct arena *a, const struct image *im,
                          unsigned width, unsigned height,
                          struct image_report *report);

/* Tells the author. `path` is the file as messages name it. */
void image_tell(struct diags *d, struct span at, const char *path,
                const struct image_report *report);

#endif

/* picture.h - an image as it is placed: samples in the coding in which a PDF
 * holds them, so that printing only copies. */
#ifndef PICTURE_H
#define PICTURE_H

#include <stddef.h>

enum picture_coding {
    PICTURE_FLATE, /* rows of samples, deflated (RFC 1950) */
    PICTURE_PNG,   /* the same, filtered by rows as PNG does (RFC 2083) */
    PICTURE_JPEG,  /* a JPEG file */
};

/* 8 bits a sample, rows from the top. */
struct picture {
    enum picture_coding coding;
    unsigned width, height; /* in pixels, as stored: before the turn */
    unsigned channels;      /* 1: grey, 3: red, green, blue (sRGB) */
    unsigned turn;          /* 1 to 8, as in Exif: see image.h */
    const unsigned char *bytes;
    size_t len;
};

#endif

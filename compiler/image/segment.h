/* segment.h - the segments in front of a JPEG's samples: which way up it is,
 * and what of them a PDF needs. */
#ifndef SEGMENT_H
#define SEGMENT_H

#include "image/image.h"

struct arena;

/* Exif orientation, 1 to 8; 1 where none is stated, or in a manner that cannot
 * be read: the samples are right all the same. */
unsigned segment_turn(const unsigned char *bytes, size_t len);

/* A copy without metadata: of the application segments only those that say how
 * colours are coded are kept, JFIF's and Adobe's. */
unsigned char *segment_strip(struct arena *a, const unsigned char *bytes,
                             size_t len, size_t *out_len);

#endif

/* cut.h - the glyphs that a document embeds, cut out of a face and packed. */
#ifndef CUT_H
#define CUT_H

#include "layout/display.h"

#include <hb.h>
#include <stddef.h>
#include <stdint.h>

struct arena;

struct subset {
    const unsigned char *packed; /* deflated (RFC 1950): a font program, or a
                                    table CFF alone where outlines are cubic */
    size_t packed_len, len;      /* `len` unpacked */
    const uint16_t *glyph;       /* in the whole face, rising */
    const uint16_t *renumbered;  /* in the subset */
    size_t count;
    char name[80]; /* "ABCDEF+DejaVuSansCondensed" */
};

/* A face with those tables alone that a subset is made of; the caller destroys
 * it. */
hb_face_t *cut_face(enum face face);
/* Of `count` glyphs of the whole face, rising, .notdef among them. Its bytes
 * live as long as the arena. */
void cut_subset(struct arena *a, struct subset *s, enum face face,
                const uint16_t *glyph, size_t count);

#endif

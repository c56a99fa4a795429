/* subset.h - the part of a face that a document embeds, packed.
 *
 * A run prints many documents with the same glyphs (a fleet, the guides of a
 * shop): what was cut out for one is kept for the next. A subset hangs on its
 * glyphs alone, so that a file is the same whether one was kept or not. */
#ifndef SUBSET_H
#define SUBSET_H

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

/* Subsets of earlier documents; of one thread at a time. NULL: no memory. */
struct subset_kept;
struct subset_kept *subset_kept_new(void);
void subset_kept_free(struct subset_kept *k);

/* A face with those tables alone that a subset is made of; the caller destroys
 * it. */
hb_face_t *subset_face(enum face face);
/* The glyph of a blank in it, or 0. */
uint16_t subset_blank(enum face face);
/* `glyph` has `count` numbers of the whole face, in any order and as often as
 * they come. Besides them a subset has .notdef, the blank, and where the pitch
 * is fixed the letters of the codes. From `kept`, where that is not NULL; it
 * may keep the new one. The subset lives as long as the arena and what was
 * kept. */
const struct subset *subset_make(struct arena *a, struct subset_kept *kept,
                                 enum face face, const uint16_t *glyph,
                                 size_t count);
/* The same of each face that the pages print with, to be kept for subset_make()
 * of their glyphs. */
void subset_make_all(struct subset_kept *kept, const struct pages *pages);
/* A glyph of the whole face in the subset; 0: it has none. */
unsigned subset_glyph(const struct subset *s, uint16_t glyph);

#endif

/* subset.h - the part of a face that a document embeds, packed.
 *
 * A run prints many documents with the same glyphs (a fleet, the guides of a
 * shop): what was cut out for one is kept for the next. A subset hangs on its
 * glyphs alone, so that a file is the same whether one was kept or not. */
#ifndef SUBSET_H
#define SUBSET_H

#include "print/cut.h"

struct arena;

/* Of what each document embeds of each face (face.h), cut when the program was
 * built (ready.c). */
extern const struct subset subset_ready[FACE_COUNT];

/* Subsets of earlier documents; of one thread at a time. NULL: no memory. */
struct subset_kept;
struct subset_kept *subset_kept_new(void);
void subset_kept_free(struct subset_kept *k);

/* `glyph` has `count` numbers of the whole face, in any order and as often as
 * they come. Besides them a subset has those that are ready. From
 * `kept`, where that is not NULL; it may keep the new one. The subset lives as
 * long as the arena and what was kept. */
const struct subset *subset_make(struct arena *a, struct subset_kept *kept,
                                 enum face face, const uint16_t *glyph,
                                 size_t count);
/* A glyph of the whole face in the subset; 0: it has none. */
unsigned subset_glyph(const struct subset *s, uint16_t glyph);

#endif

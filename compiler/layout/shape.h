/* shape.h - text to glyphs: HarfBuzz over the faces that are linked in.
 *
 * Words are shaped once for each face and kept, so that measuring a line is a
 * sum; guides that are laid out one after another may share what they keep. A
 * shaper belongs to one guide (its arena). Text runs from left to right.
 *
 * A digit is never kerned, neither with a digit nor with its other neighbour,
 * so that figures of equal length line up, point and sign included. */
#ifndef SHAPE_H
#define SHAPE_H

#include "layout/display.h"

struct arena;
struct shaper;

struct run { /* a word or a piece of text, shaped */
    enum face face;
    struct text text;
    const struct glyph *glyphs;
    size_t glyph_count;
    double advance; /* of the em */
};

/* Opened faces and shaped words, for one guide at a time. Runs of the guides
 * that used them live in it, too: freed last. */
struct shape_kept *shape_kept_new(void);
void shape_kept_free(struct shape_kept *k);
/* `kept`: NULL, or what earlier guides left; it does not change what comes out.
 */
struct shaper *shape_new(struct arena *a, struct shape_kept *kept);
/* Gives back what HarfBuzz holds, unless it is kept; all runs stay. Shaping
 * again afterwards opens the faces anew. */
void shape_free(struct shaper *s);

/* From the cache where possible; text without blanks caches best. A missing
 * glyph has id 0 (.notdef); see shape_missing(). The run's text is a copy. */
const struct run *shape_word(struct shaper *s, enum face face,
                             struct text word);
/* A piece of a line, blanks and all, as one run: its words from the cache, put
 * together. Not cached itself. */
const struct run *shape_text(struct shaper *s, enum face face, struct text t);
/* Length of the first stretch of the text that the face has all characters of,
 * or none: `covered`. */
size_t shape_covered(struct shaper *s, enum face face, struct text t,
                     bool *covered);
/* First code point that the face lacks, or 0. A letter that is written from
 * right to left counts as lacking: it would come out in the wrong order. */
uint32_t shape_missing(struct shaper *s, enum face face, struct text t);
/* Points. */
double shape_width(struct shaper *s, enum face face, double size,
                   struct text t);
/* Of the em, from the face's own tables; the descent is positive. */
double shape_ascent(enum face face);
double shape_descent(enum face face);
double shape_cap_height(enum face face);
/* The bytes of a linked-in face, for the subsetter in print/. */
const unsigned char *shape_face_bytes(enum face face, size_t *len);
const char *shape_face_name(enum face face); /* PostScript name */

#endif

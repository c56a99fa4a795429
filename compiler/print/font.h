/* font.h - the fonts of one document: a code for each glyph that is printed,
 * and at the end a subset face with its tables. */
#ifndef FONT_H
#define FONT_H

#include "layout/display.h"
#include "print/object.h"

struct fonts;
struct subset_kept;

/* `kept`: subsets of earlier documents (subset.h), or NULL. */
struct fonts *font_new(struct arena *a, struct subset_kept *kept);
void font_free(struct fonts *f); /* gives back what HarfBuzz holds */

/* The two-byte code by which page content shows this glyph, standing for this
 * text. One glyph that stands for different texts gets a code for each, so that
 * every text comes back from the file as it was. 0 when the face has no such
 * glyph or the codes are used up. */
uint16_t font_code(struct fonts *f, enum face face, uint16_t glyph,
                   struct text text);
/* The code of a blank in a face that is in use; 0: it has none. */
uint16_t font_blank(struct fonts *f, enum face face);
/* Advance of a code, in thousandths of the em, as the font dictionary says it.
 */
double font_width(const struct fonts *f, enum face face, uint16_t code);

/* Makes the font objects; the entries for a /Font resource, "/F1 5 0 R ...". */
const char *font_finish(struct fonts *f, struct pdf *pdf);

#endif

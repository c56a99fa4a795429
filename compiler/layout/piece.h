/* piece.h - a piece of text to glyphs by HarfBuzz: digits, or a stretch without
 * digits, of one face. */
#ifndef PIECE_H
#define PIECE_H

#include "base/text.h"
#include "layout/display.h"

#include <hb.h>

/* Of the linked-in face; the caller destroys it. */
hb_face_t *piece_face(enum face face);
hb_font_t *piece_font(enum face face);
/* One that is a piece with its like. */
static inline bool piece_is_digit(uint32_t code) {
    return code >= '0' && code <= '9';
}
/* The end of the piece of `text` that begins at `from`: digits with the marks
 * that sit on them, or a stretch without digits. */
size_t piece_end(struct text text, size_t from, bool *digits);
/* Glyphs and positions in units of the em; clusters are bytes of the piece. A
 * digit is not kerned. Ends the program where there is no memory. */
void piece_shape(hb_buffer_t *out, hb_font_t *font, struct text piece,
                 bool digits);

#endif

/* usual.h - what nearly every guide is made of: the usual characters of each
 * face, and their glyphs.
 *
 * What HarfBuzz makes of each of them before each other one is found when the
 * program is built (ready.c) and linked in. In a piece of them a face changes
 * nothing but the distance of neighbours, and that by the two alone: contextual
 * forms are switched off (piece.c), and the program is not built with a face
 * that melts two of them into one glyph. So a word of them is put together
 * without shaping it, in a twentieth of the time; tests compare the two. */
#ifndef USUAL_H
#define USUAL_H

#include "layout/shape.h"

struct usual {
    size_t count;
    const uint32_t *code;    /* rising; the first is the blank */
    const uint16_t *glyph;   /* of each */
    const uint16_t *advance; /* [count][count + 1], in units of the em: before
                                each other one, and at the end of a piece */
};

extern const struct usual usual[FACE_COUNT];

/* To each of the characters of the run's text one glyph; `glyphs` has room for
 * as many as the text has bytes. False, and nothing else, where one of them is
 * not usual. The run keeps `glyphs`. */
bool usual_put(struct run *run, struct glyph *glyphs);
/* Of a glyph by itself, in units of the em; 0: it is not usual. */
int usual_width(enum face face, uint16_t glyph);

#endif

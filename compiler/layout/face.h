/* face.h - the faces that are linked in: their bytes and what a PDF wants to
 * know of them. */
#ifndef FACE_H
#define FACE_H

#include "layout/display.h"

/* Lengths upward positive, from the tables of the face itself (a test
 * compares them). */
struct face_form {
    const char *name;                 /* PostScript name */
    const unsigned char *start, *end; /* the file, as OpenType */
    int em;                           /* its units; lengths below are in them */
    int ascent, descent;              /* hhea; descent is negative */
    int cap_height;                   /* top of H */
    int stem;                         /* width of an upright stroke */
    int left, bottom, right, top;     /* head: box around all glyphs */
    double italic_angle;              /* degrees, as in `post` */
    bool fixed_pitch;
    bool cubic; /* outlines in a table CFF, else glyf */
    int glyph_count;
    const char *usual;    /* characters that a guide may well print in it, */
    const char *embedded; /* and those of them that each document embeds */
};

const struct face_form *face_form(enum face face);

#endif

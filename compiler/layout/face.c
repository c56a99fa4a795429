/* face.c - the table of the faces that faces.S links in. */
#include "layout/face.h"

extern const unsigned char face_regular_start[], face_regular_end[],
    face_bold_start[], face_bold_end[], face_oblique_start[],
    face_oblique_end[], face_mono_start[], face_mono_end[], face_symbol_start[],
    face_symbol_end[];

#define LETTERS "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"
#define DIGITS "0123456789"
/* Text, and what explains it; what lies far from these is cut when it is
 * printed. */
#define TEXT LETTERS DIGITS " %'()+,-./:;=?[]\u00a0°±²·Ω\u2002–“”−≤≥"
#define NOTES LETTERS DIGITS " ()+,-./:;=°²·×Ω−"
#define ALL                                                                    \
    LETTERS DIGITS                                                             \
        " !\"#$%&'()*+,-./:;<=>?@[\\]^_`{|}~\u00a0°±²µ·×Ω\u2002–—‘’“”…−≤≥"
/* With fixed pitch little is printed but the codes of the pages. */
#define CODES " 23456789ABCDEFGHJKLMNPQRSTUVWXYZ"
#define BOXES " ☐"

static const struct face_form forms[FACE_COUNT] = {
    [FACE_REGULAR] = {"Inter-Regular", face_regular_start, face_regular_end,
                      2816, 2728, -680, 2048, 248, -2080, -900, 7274, 3072, 0,
                      false, true, 2548, ALL, TEXT},
    [FACE_BOLD] = {"Inter-Bold", face_bold_start, face_bold_end, 2816, 2728,
                   -680, 2048, 433, -2380, -900, 7274, 3135, 0, false, true,
                   2548, ALL, TEXT},
    [FACE_OBLIQUE] = {"Inter-Italic", face_oblique_start, face_oblique_end,
                      2816, 2728, -680, 2048, 248, -2096, -900, 7316, 3072,
                      -9.4, false, true, 2548, ALL, NOTES},
    [FACE_MONO] = {"DejaVuSansMono", face_mono_start, face_mono_end, 2048, 1901,
                   -483, 1493, 172, -1144, -767, 1470, 2106, 0, true, false,
                   3377, CODES, CODES},
    [FACE_SYMBOL] = {"DejaVuSansCondensed", face_symbol_start, face_symbol_end,
                     2048, 1901, -483, 1493, 183, -1881, -948, 3306, 2524, 0,
                     false, false, 6253, BOXES, BOXES},
};

const struct face_form *face_form(enum face face) {
    return &forms[face];
}

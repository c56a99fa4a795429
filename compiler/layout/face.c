/* face.c - the table of the faces that faces.S links in. */
#include "layout/face.h"

extern const unsigned char face_regular_start[], face_regular_end[],
    face_bold_start[], face_bold_end[], face_oblique_start[],
    face_oblique_end[], face_mono_start[], face_mono_end[];

static const struct face_form forms[FACE_COUNT] = {
    [FACE_REGULAR] = {"DejaVuSansCondensed", face_regular_start,
                      face_regular_end, 1901, -483, 1493, 183, -1881, -948,
                      3306, 2524, 0, false, 6253},
    [FACE_BOLD] = {"DejaVuSansCondensed-Bold", face_bold_start, face_bold_end,
                   1901, -483, 1493, 347, -1971, -850, 3641, 2407, 0, false,
                   6196},
    [FACE_OBLIQUE] = {"DejaVuSansCondensed-Oblique", face_oblique_start,
                      face_oblique_end, 1901, -483, 1493, 183, -1872, -717,
                      3058, 2187, -11, false, 5355},
    [FACE_MONO] = {"DejaVuSansMono", face_mono_start, face_mono_end, 1901, -483,
                   1493, 172, -1144, -767, 1470, 2106, 0, true, 3377},
};

const struct face_form *face_form(enum face face) {
    return &forms[face];
}

/* piece.c - shaping by HarfBuzz over the faces that are linked in. */
#include "layout/piece.h"

#include "base/arena.h"
#include "layout/face.h"

hb_font_t *piece_font(enum face face) {
    const struct face_form *form = face_form(face);
    hb_blob_t *blob = hb_blob_create((const char *)form->start,
                                     (unsigned)(form->end - form->start),
                                     HB_MEMORY_MODE_READONLY, NULL, NULL);
    hb_face_t *hb = hb_face_create(blob, 0);
    hb_font_t *font = hb_font_create(hb);
    hb_font_make_immutable(font); /* of several threads, perhaps */
    hb_face_destroy(hb);
    hb_blob_destroy(blob);
    return font;
}

static bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

size_t piece_end(struct text text, size_t from, bool *digits) {
    hb_unicode_funcs_t *unicode = hb_unicode_funcs_get_default();
    size_t at = from;
    *digits = is_digit(text.start[from]);
    while (at < text.len && is_digit(text.start[at]) == *digits) {
        at++;
        size_t next = at;
        while (*digits && next < text.len) {
            uint32_t code = text_next(text, &next);
            if (code < 0x80 || hb_unicode_general_category(unicode, code) !=
                                   HB_UNICODE_GENERAL_CATEGORY_NON_SPACING_MARK)
                break;
            at = next;
        }
    }
    return at;
}

#define FEATURE(a, b, c, d, value)                                             \
    {                                                                          \
        HB_TAG(a, b, c, d), value, HB_FEATURE_GLOBAL_START,                    \
            HB_FEATURE_GLOBAL_END                                              \
    }

/* The first is for digits only: they stand in columns. `ss02` and `zero` are
 * the forms of I, l, 0 that cannot be taken for another letter, where a face
 * has them; `calt` would print other signs than were written (an arrow for ->).
 * The last two put letters and their accents together: of no use to ASCII, and
 * half of the time that its shaping takes. */
static const hb_feature_t features[] = {
    FEATURE('k', 'e', 'r', 'n', 0), FEATURE('t', 'n', 'u', 'm', 1),
    FEATURE('z', 'e', 'r', 'o', 1), FEATURE('s', 's', '0', '2', 1),
    FEATURE('c', 'a', 'l', 't', 0), FEATURE('c', 'c', 'm', 'p', 0),
    FEATURE('l', 'o', 'c', 'l', 0),
};

enum { FEATURES = sizeof features / sizeof features[0], FOR_ASCII = 2 };

static bool is_ascii(struct text t) {
    for (size_t i = 0; i < t.len; i++)
        if ((unsigned char)t.start[i] >= 0x80)
            return false;
    return true;
}

void piece_shape(hb_buffer_t *out, hb_font_t *font, struct text piece,
                 bool digits) {
    unsigned first = digits ? 0 : 1;
    unsigned last = is_ascii(piece) ? FEATURES : FEATURES - FOR_ASCII;
    hb_buffer_reset(out);
    /* Marks keep clusters of their own: each glyph then stands for its own
     * characters, and the text can be taken out of the PDF again. */
    hb_buffer_set_cluster_level(out,
                                HB_BUFFER_CLUSTER_LEVEL_MONOTONE_CHARACTERS);
    hb_buffer_set_direction(out, HB_DIRECTION_LTR);
    hb_buffer_set_language(out, hb_language_from_string("en", 2));
    hb_buffer_add_utf8(out, piece.start, (int)piece.len, 0, (int)piece.len);
    hb_buffer_guess_segment_properties(out);
    hb_shape(font, out, features + first, last - first);
    if (!hb_buffer_allocation_successful(out))
        arena_exhausted();
}

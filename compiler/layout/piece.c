/* piece.c - shaping by HarfBuzz over the faces that are linked in. */
#include "layout/piece.h"

#include "base/arena.h"
#include "layout/face.h"

#include <hb-ot.h>

hb_face_t *piece_face(enum face face) {
    const struct face_form *form = face_form(face);
    hb_blob_t *blob = hb_blob_create((const char *)form->start,
                                     (unsigned)(form->end - form->start),
                                     HB_MEMORY_MODE_READONLY, NULL, NULL);
    hb_face_t *whole = hb_face_create(blob, 0);
    hb_blob_destroy(blob);
    return whole;
}

hb_font_t *piece_font(enum face face) {
    hb_face_t *whole = piece_face(face);
    hb_font_t *font = hb_font_create(whole);
    hb_font_make_immutable(font); /* of several threads, perhaps */
    hb_face_destroy(whole);
    return font;
}

static bool is_digit(char c) {
    return piece_is_digit((unsigned char)c);
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

/* Has the face no place for a mark on this letter, it stays where it is drawn:
 * in a face of one width that is behind the letter. */
static bool is_astray(hb_font_t *font, const hb_glyph_info_t *info,
                      const hb_glyph_position_t *p,
                      const hb_glyph_extents_t *ink) {
    return p->x_advance == 0 && p->x_offset == 0 && ink->x_bearing > 0 &&
           hb_ot_layout_get_glyph_class(hb_font_get_face(font),
                                        info->codepoint) ==
               HB_OT_LAYOUT_GLYPH_CLASS_MARK;
}

/* Ink of a letter and of the marks that it has so far. */
struct ink {
    hb_position_t width, top, bottom;
};

/* Over the letter, or under it, and clear of it by a thirtieth of the em; each
 * of them is drawn in the middle of the same width. */
static void place_mark(hb_font_t *font, uint32_t code, const struct ink *letter,
                       const hb_glyph_extents_t *ink, hb_glyph_position_t *p) {
    unsigned where =
        hb_unicode_combining_class(hb_unicode_funcs_get_default(), code);
    hb_position_t clear =
        (hb_position_t)hb_face_get_upem(hb_font_get_face(font)) / 30;
    hb_position_t up = letter->top + clear - (ink->y_bearing + ink->height);
    hb_position_t down = letter->bottom - clear - ink->y_bearing;
    p->x_offset = -letter->width;
    if (where == HB_UNICODE_COMBINING_CLASS_ABOVE && up > 0)
        p->y_offset = up;
    if (where == HB_UNICODE_COMBINING_CLASS_BELOW && down < 0)
        p->y_offset = down;
}

static void place_marks(hb_buffer_t *out, hb_font_t *font, struct text piece) {
    unsigned count;
    const hb_glyph_info_t *info = hb_buffer_get_glyph_infos(out, &count);
    hb_glyph_position_t *p = hb_buffer_get_glyph_positions(out, NULL);
    struct ink letter = {0, 0, 0};
    for (unsigned i = 0; i < count; i++) {
        hb_glyph_extents_t ink = {0, 0, 0, 0};
        hb_font_get_glyph_extents(font, info[i].codepoint, &ink);
        size_t at = info[i].cluster;
        if (is_astray(font, &info[i], &p[i], &ink))
            place_mark(font, text_next(piece, &at), &letter, &ink, &p[i]);
        hb_position_t top = ink.y_bearing + p[i].y_offset;
        hb_position_t bottom = top + ink.height;
        if (p[i].x_advance > 0)
            letter = (struct ink){p[i].x_advance, top, bottom};
        letter.top = top > letter.top ? top : letter.top;
        letter.bottom = bottom < letter.bottom ? bottom : letter.bottom;
    }
}

void piece_shape(hb_buffer_t *out, hb_font_t *font, struct text piece,
                 bool digits) {
    unsigned first = digits ? 0 : 1;
    bool ascii = is_ascii(piece);
    unsigned last = ascii ? FEATURES : FEATURES - FOR_ASCII;
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
    if (!ascii)
        place_marks(out, font, piece);
}

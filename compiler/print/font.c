/* font.c - fonts as Type0 over a subset of the face.
 *
 * Codes are given in order of first use. What takes them to the glyphs of the
 * subset, which HarfBuzz numbers in the order of the whole face, is CIDToGIDMap
 * for TrueType outlines and a CMap for those of a table CFF, where PDF has no
 * such map and a CID is the number of the glyph (ISO 32000-1, 9.7.4.2). Hints,
 * layout tables and names are left out: nobody sets text with the subset. */
#include "print/font.h"

#include "base/arena.h"
#include "base/list.h"
#include "layout/face.h"
#include "layout/usual.h"
#include "print/real.h"
#include "print/subset.h"

#include <hb.h>

struct code {
    uint16_t glyph; /* in the whole face */
    uint16_t other; /* an earlier code for the same glyph, or 0 */
    struct text text;
    double width; /* thousandths of the em */
};

struct font {
    hb_font_t *font;    /* for widths that are not usual; NULL so far */
    uint16_t *newest;   /* [glyph] its latest code, or 0; NULL: not used */
    struct code *codes; /* [0] is .notdef */
    size_t count, room;
};

struct fonts {
    struct arena *arena;
    struct subset_kept *kept; /* of earlier documents; or NULL */
    struct font font[FACE_COUNT];
};

struct fonts *font_new(struct arena *a, struct subset_kept *kept) {
    struct fonts *f = arena_alloc(a, 1, sizeof *f);
    f->arena = a;
    f->kept = kept;
    return f;
}

void font_free(struct fonts *f) {
    for (int i = 0; i < FACE_COUNT; i++) {
        hb_font_destroy(f->font[i].font);
        f->font[i] = (struct font){0};
    }
}

/* Thousandths of the em. */
static double width_of(struct font *font, enum face face, uint16_t glyph) {
    int units = usual_width(face, glyph);
    if (units == 0 && font->font == NULL) {
        hb_face_t *whole = cut_face(face);
        font->font = hb_font_create(whole);
        hb_face_destroy(whole);
    }
    if (units == 0)
        units = hb_font_get_glyph_h_advance(font->font, glyph);
    return units * 1000.0 / face_form(face)->em;
}

static uint16_t add_code(struct fonts *f, enum face face, uint16_t glyph,
                         struct text text) {
    struct font *font = &f->font[face];
    font->codes = list_grown(f->arena, font->codes, font->count, &font->room,
                             sizeof *font->codes);
    struct code *code = &font->codes[font->count];
    code->glyph = glyph;
    code->other = font->newest[glyph];
    code->text = text;
    code->width = width_of(font, face, glyph);
    font->newest[glyph] = (uint16_t)font->count;
    return (uint16_t)font->count++;
}

uint16_t font_code(struct fonts *f, enum face face, uint16_t glyph,
                   struct text text) {
    struct font *font = &f->font[face];
    if (glyph >= face_form(face)->glyph_count)
        return 0;
    if (font->newest == NULL) {
        font->newest =
            arena_alloc(f->arena, (size_t)face_form(face)->glyph_count,
                        sizeof *font->newest);
        add_code(f, face, 0, (struct text){0});
    }
    for (uint16_t code = font->newest[glyph]; code != 0;
         code = font->codes[code].other) {
        if (text_equal(font->codes[code].text, text))
            return code;
    }
    return font->count > UINT16_MAX ? 0 : add_code(f, face, glyph, text);
}

uint16_t font_blank(struct fonts *f, enum face face) {
    return font_code(f, face, usual[face].glyph[0], text_of(" "));
}

double font_width(const struct fonts *f, enum face face, uint16_t code) {
    return f->font[face].codes[code].width;
}

static const struct subset *
make_subset(struct fonts *f, const struct font *font, enum face face) {
    uint16_t *glyph = arena_alloc(f->arena, font->count, sizeof *glyph);
    for (size_t i = 0; i < font->count; i++)
        glyph[i] = font->codes[i].glyph;
    return subset_make(f->arena, f->kept, face, glyph, font->count);
}

/* Two bytes for each code. */
static unsigned char *glyph_of_codes(struct fonts *f, const struct font *font,
                                     const struct subset *s) {
    unsigned char *out = arena_alloc(f->arena, font->count, 2);
    for (size_t i = 0; i < font->count; i++) {
        unsigned glyph = subset_glyph(s, font->codes[i].glyph);
        out[2 * i] = (unsigned char)(glyph >> 8);
        out[2 * i + 1] = (unsigned char)glyph;
    }
    return out;
}

/* The frame of a CMap with one line for each code that has one. */
static HPDF_Dict cmap(struct fonts *f, const struct font *font,
                      const char *entries, const char *head, const char *list,
                      bool (*line)(struct buf *out, const struct font *font,
                                   const struct subset *s, size_t code),
                      const struct subset *subset, struct pdf *pdf) {
    struct buf lines = buf_in(f->arena), out = buf_in(f->arena);
    size_t count = 0;
    buf_puts(&out, "/CIDInit/ProcSet findresource begin\n"
                   "12 dict begin\nbegincmap\n");
    buf_puts(&out, head);
    buf_puts(&out, "1 begincodespacerange\n<0000><FFFF>\n"
                   "endcodespacerange\n");
    for (size_t i = 0; i <= font->count; i++) {
        bool full = count == 100 || (i == font->count && count > 0);
        if (full) {
            buf_printf(&out, "%zu begin%s\n%send%s\n", count, list,
                       buf_cstr(&lines), list);
            lines = buf_in(f->arena);
            count = 0;
        }
        if (i < font->count)
            count += line(&lines, font, subset, i);
    }
    buf_puts(&out, "endcmap\nCMapName currentdict/CMap defineresource pop\n"
                   "end\nend\n");
    return object_packed(pdf, out.bytes, out.len, entries);
}

static bool text_line(struct buf *out, const struct font *font,
                      const struct subset *s, size_t code) {
    (void)s;
    if (font->codes[code].text.len == 0)
        return false;
    buf_puts(out, "<");
    object_put_hex(out, code);
    buf_puts(out, "><");
    object_put_utf16(out, font->codes[code].text);
    buf_puts(out, ">\n");
    return true;
}

/* ISO 32000-1, 9.10.3: at most 100 lines to a block. */
static HPDF_Dict to_unicode(struct fonts *f, const struct font *font,
                            struct pdf *pdf) {
    return cmap(f, font, "",
                "/CIDSystemInfo<</Registry(Adobe)/Ordering(UCS)"
                "/Supplement 0>>def\n"
                "/CMapName/Adobe-Identity-UCS def\n/CMapType 2 def\n",
                "bfchar", text_line, NULL, pdf);
}

static bool glyph_line(struct buf *out, const struct font *font,
                       const struct subset *s, size_t code) {
    buf_puts(out, "<");
    object_put_hex(out, code);
    buf_printf(out, "> %u\n", subset_glyph(s, font->codes[code].glyph));
    return true;
}

/* From codes to glyphs: ISO 32000-1, 9.7.5.4. */
static HPDF_Dict encoding(struct fonts *f, const struct font *font,
                          const struct subset *s, struct pdf *pdf) {
    static const char info[] =
        "/CIDSystemInfo<</Registry(Adobe)/Ordering(Identity)/Supplement 0>>";
    return cmap(
        f, font, arena_printf(f->arena, "/Type/CMap/CMapName/Glyphs%s", info),
        arena_printf(f->arena, "%sdef\n/CMapName/Glyphs def\n/CMapType 1 def\n",
                     info),
        "cidchar", glyph_line, s, pdf);
}

static HPDF_Dict font_file(struct fonts *f, const struct subset *s, bool cubic,
                           struct pdf *pdf) {
    const char *entries = "/Subtype/CIDFontType0C/Filter/FlateDecode";
    if (!cubic)
        entries =
            arena_printf(f->arena, "/Length1 %zu/Filter/FlateDecode", s->len);
    return object_stream(pdf, s->packed, s->packed_len, entries);
}

static void thousandths(struct buf *out, const char *key, int units, int em) {
    buf_puts(out, key);
    real_put(out, units * 1000.0 / em, 0);
}

/* Flags: ISO 32000-1, table 123. */
static HPDF_Dict descriptor(struct fonts *f, const struct face_form *form,
                            const struct subset *s, struct pdf *pdf) {
    enum { FIXED_PITCH = 1, SYMBOLIC = 4, ITALIC = 64 };
    struct buf out = buf_in(f->arena);
    buf_printf(&out, "/Type/FontDescriptor/FontName/%s/Flags %d", s->name,
               SYMBOLIC | (form->fixed_pitch ? FIXED_PITCH : 0) |
                   (form->italic_angle != 0 ? ITALIC : 0));
    thousandths(&out, "/FontBBox[", form->left, form->em);
    thousandths(&out, "", form->bottom, form->em);
    thousandths(&out, "", form->right, form->em);
    thousandths(&out, "", form->top, form->em);
    buf_puts(&out, "]/ItalicAngle");
    real_put(&out, form->italic_angle, 2);
    thousandths(&out, "/Ascent", form->ascent, form->em);
    thousandths(&out, "/Descent", form->descent, form->em);
    thousandths(&out, "/CapHeight", form->cap_height, form->em);
    thousandths(&out, "/StemV", form->stem, form->em);
    buf_puts(&out, form->cubic ? "/FontFile3" : "/FontFile2");
    object_refer(&out, font_file(f, s, form->cubic, pdf));
    HPDF_Dict dict = object_dict(pdf);
    object_entries(dict, out.bytes);
    return dict;
}

/* By CID, that is: by code, or by glyph where a CMap leads to glyphs. */
static void put_widths(struct fonts *f, struct buf *out,
                       const struct font *font, const struct subset *s,
                       bool by_glyph) {
    size_t count = 0;
    for (size_t i = 0; i < font->count; i++) {
        size_t cid = by_glyph ? subset_glyph(s, font->codes[i].glyph) : i;
        count = cid + 1 > count ? cid + 1 : count;
    }
    double *width = arena_alloc(f->arena, count, sizeof *width);
    for (size_t i = 0; i < font->count; i++)
        width[by_glyph ? subset_glyph(s, font->codes[i].glyph) : i] =
            font->codes[i].width;
    buf_puts(out, "/W[0[");
    for (size_t i = 0; i < count; i++)
        real_put(out, width[i], 5);
    buf_puts(out, "]]");
}

static HPDF_Dict descendant(struct fonts *f, const struct font *font,
                            const struct face_form *form,
                            const struct subset *s, struct pdf *pdf) {
    struct buf out = buf_in(f->arena);
    buf_printf(&out,
               "/Type/Font/Subtype/CIDFontType%d/BaseFont/%s"
               "/CIDSystemInfo<</Registry(Adobe)/Ordering(Identity)"
               "/Supplement 0>>/FontDescriptor",
               form->cubic ? 0 : 2, s->name);
    object_refer(&out, descriptor(f, form, s, pdf));
    if (!form->cubic) {
        buf_puts(&out, "/CIDToGIDMap");
        object_refer(&out, object_packed(pdf, glyph_of_codes(f, font, s),
                                         2 * font->count, ""));
    }
    put_widths(f, &out, font, s, form->cubic);
    HPDF_Dict dict = object_dict(pdf);
    object_entries(dict, out.bytes);
    return dict;
}

static HPDF_Dict whole_font(struct fonts *f, const struct font *font,
                            enum face face, struct pdf *pdf) {
    const struct face_form *form = face_form(face);
    const struct subset *s = make_subset(f, font, face);
    struct buf out = buf_in(f->arena);
    buf_printf(&out, "/Type/Font/Subtype/Type0/BaseFont/%s/Encoding", s->name);
    if (form->cubic)
        object_refer(&out, encoding(f, font, s, pdf));
    else
        buf_puts(&out, "/Identity-H");
    buf_puts(&out, "/DescendantFonts[");
    object_refer(&out, descendant(f, font, form, s, pdf));
    buf_puts(&out, "]/ToUnicode");
    object_refer(&out, to_unicode(f, font, pdf));
    HPDF_Dict dict = object_dict(pdf);
    object_entries(dict, out.bytes);
    return dict;
}

const char *font_finish(struct fonts *f, struct pdf *pdf) {
    struct buf out = buf_in(f->arena);
    for (int i = 0; i < FACE_COUNT; i++) {
        if (f->font[i].newest == NULL)
            continue;
        buf_printf(&out, "/F%d", i + 1);
        object_refer(&out, whole_font(f, &f->font[i], (enum face)i, pdf));
    }
    return buf_cstr(&out);
}

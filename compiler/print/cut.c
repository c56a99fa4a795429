/* cut.c - a subset of a face by HarfBuzz, packed. */
#include "print/cut.h"

#include "base/arena.h"
#include "base/pack.h"
#include "layout/face.h"
#include "layout/piece.h"

#include <hb-subset.h>
#include <string.h>

/* Hiding the other tables spares HarfBuzz from walking through the whole
 * character map, which took most of the time. */
static hb_blob_t *glyph_table(hb_face_t *face, hb_tag_t tag, void *whole) {
    (void)face;
    switch (tag) {
    case HB_TAG('h', 'e', 'a', 'd'):
    case HB_TAG('h', 'h', 'e', 'a'):
    case HB_TAG('h', 'm', 't', 'x'):
    case HB_TAG('m', 'a', 'x', 'p'):
    case HB_TAG('l', 'o', 'c', 'a'):
    case HB_TAG('g', 'l', 'y', 'f'):
    case HB_TAG('C', 'F', 'F', ' '):
        return hb_face_reference_table(whole, tag);
    default:
        return hb_blob_get_empty();
    }
}

static void destroy_face(void *face) {
    hb_face_destroy(face);
}

hb_face_t *cut_face(enum face face) {
    return hb_face_create_for_tables(glyph_table, piece_face(face),
                                     destroy_face);
}

static hb_subset_plan_t *plan_of(hb_face_t *whole, const uint16_t *glyph,
                                 size_t count) {
    hb_subset_input_t *input = hb_subset_input_create_or_fail();
    if (input == NULL)
        arena_exhausted();
    hb_subset_input_set_flags(input, HB_SUBSET_FLAGS_NO_HINTING |
                                         HB_SUBSET_FLAGS_NOTDEF_OUTLINE);
    hb_set_t *glyphs = hb_subset_input_glyph_set(input);
    for (size_t i = 0; i < count; i++)
        hb_set_add(glyphs, glyph[i]);
    hb_subset_plan_t *plan = hb_subset_plan_create_or_fail(whole, input);
    hb_subset_input_destroy(input);
    if (plan == NULL)
        arena_exhausted();
    return plan;
}

/* Subsets of one face in two documents differ by name, as PDF asks for: the six
 * letters come from the bytes. */
static void name_subset(struct subset *s, struct text bytes,
                        const char *face_name) {
    uint64_t hash = text_hash(bytes);
    for (int i = 0; i < 6; i++, hash /= 26)
        s->name[i] = (char)('A' + hash % 26);
    s->name[6] = '+';
    strncpy(s->name + 7, face_name, sizeof s->name - 8);
}

static void pack(struct arena *a, struct subset *s, hb_blob_t *blob) {
    unsigned len;
    const char *bytes = hb_blob_get_data(blob, &len);
    s->len = len;
    s->packed = pack_deflate(a, bytes, len, &s->packed_len);
}

void cut_subset(struct arena *a, struct subset *s, enum face face,
                const uint16_t *glyph, size_t count) {
    const struct face_form *form = face_form(face);
    hb_face_t *whole = cut_face(face);
    hb_subset_plan_t *plan = plan_of(whole, glyph, count);
    hb_face_t *small = hb_subset_plan_execute_or_fail(plan);
    if (small == NULL)
        arena_exhausted();
    const hb_map_t *renumbered = hb_subset_plan_old_to_new_glyph_mapping(plan);
    uint16_t *from = arena_alloc(a, count, sizeof *from);
    uint16_t *to = arena_alloc(a, count, sizeof *to);
    for (size_t i = 0; i < count; i++) {
        from[i] = glyph[i];
        to[i] = (uint16_t)hb_map_get(renumbered, glyph[i]);
    }
    *s = (struct subset){.glyph = from, .renumbered = to, .count = count};
    hb_subset_plan_destroy(plan);
    hb_blob_t *program = hb_face_reference_blob(small);
    unsigned len;
    const char *bytes = hb_blob_get_data(program, &len);
    name_subset(s, (struct text){bytes, len}, form->name);
    hb_blob_t *table =
        form->cubic ? hb_face_reference_table(small, HB_TAG('C', 'F', 'F', ' '))
                    : hb_blob_reference(program);
    pack(a, s, table);
    hb_blob_destroy(table);
    hb_blob_destroy(program);
    hb_face_destroy(small);
    hb_face_destroy(whole);
}

/* subset.c - subsets by HarfBuzz, packed, kept for the next document. */
#include "print/subset.h"

#include "base/arena.h"
#include "base/pack.h"
#include "layout/face.h"

#include <hb-subset.h>
#include <stdlib.h>
#include <string.h>

enum { KEPT_MAX = 48 };

struct kept_one {
    enum face face;
    struct subset subset;
    struct arena *arena; /* its bytes; NULL: free */
    size_t used;         /* when last */
};

struct subset_kept {
    struct kept_one one[KEPT_MAX];
    size_t clock;
};

struct subset_kept *subset_kept_new(void) {
    return calloc(1, sizeof(struct subset_kept));
}

void subset_kept_free(struct subset_kept *k) {
    for (size_t i = 0; k != NULL && i < KEPT_MAX; i++)
        if (k->one[i].arena != NULL)
            arena_free(k->one[i].arena);
    free(k);
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

static void cut(struct arena *a, struct subset *s, enum face face,
                hb_face_t *whole, const uint16_t *glyph, size_t count) {
    const struct face_form *form = face_form(face);
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
}

static bool is_it(const struct kept_one *k, enum face face,
                  const uint16_t *glyph, size_t count) {
    return k->arena != NULL && k->face == face && k->subset.count == count &&
           memcmp(k->subset.glyph, glyph, count * sizeof *glyph) == 0;
}

const struct subset *subset_make(struct arena *a, struct subset_kept *kept,
                                 enum face face, hb_face_t *whole,
                                 const uint16_t *glyph, size_t count) {
    struct kept_one *oldest = NULL;
    for (size_t i = 0; kept != NULL && i < KEPT_MAX; i++) {
        struct kept_one *k = &kept->one[i];
        if (is_it(k, face, glyph, count)) {
            k->used = ++kept->clock;
            return &k->subset;
        }
        if (oldest == NULL || k->used < oldest->used)
            oldest = k;
    }
    if (oldest == NULL) {
        struct subset *s = arena_alloc(a, 1, sizeof *s);
        cut(a, s, face, whole, glyph, count);
        return s;
    }
    /* Three faces or so of a document are far from the oldest of all. */
    if (oldest->arena != NULL)
        arena_free(oldest->arena);
    *oldest = (struct kept_one){
        .face = face, .arena = arena_new(), .used = ++kept->clock};
    cut(oldest->arena, &oldest->subset, face, whole, glyph, count);
    return &oldest->subset;
}

unsigned subset_glyph(const struct subset *s, uint16_t glyph) {
    size_t low = 0, high = s->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (s->glyph[middle] < glyph)
            low = middle + 1;
        else
            high = middle;
    }
    return low < s->count && s->glyph[low] == glyph ? s->renumbered[low] : 0;
}

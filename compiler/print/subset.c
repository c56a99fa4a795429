/* subset.c - subsets by HarfBuzz, packed, kept for the next document. */
#include "print/subset.h"

#include "base/arena.h"
#include "base/pack.h"
#include "layout/face.h"

#include <hb-subset.h>
#include <stdlib.h>
#include <string.h>

enum { KEPT_MAX = 48 };

/* The face with fixed pitch prints little but the codes of the pages, another
 * one in each document: with all of their letters its subset stays the same. */
static const char code_letters[] = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ";

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

static hb_face_t *whole_face(enum face face) {
    const struct face_form *form = face_form(face);
    hb_blob_t *blob = hb_blob_create((const char *)form->start,
                                     (unsigned)(form->end - form->start),
                                     HB_MEMORY_MODE_READONLY, NULL, NULL);
    hb_face_t *whole = hb_face_create(blob, 0);
    hb_blob_destroy(blob);
    return whole;
}

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

hb_face_t *subset_face(enum face face) {
    return hb_face_create_for_tables(glyph_table, whole_face(face),
                                     destroy_face);
}

/* The glyphs of ASCII letters; 0: the face has none. */
static void glyphs_of(enum face face, const char *letters, size_t count,
                      uint16_t *out) {
    hb_face_t *whole = whole_face(face);
    hb_font_t *font = hb_font_create(whole);
    for (size_t i = 0; i < count; i++) {
        hb_codepoint_t glyph = 0;
        hb_font_get_nominal_glyph(font, (unsigned char)letters[i], &glyph);
        out[i] = (uint16_t)glyph;
    }
    hb_font_destroy(font);
    hb_face_destroy(whole);
}

uint16_t subset_blank(enum face face) {
    uint16_t blank;
    glyphs_of(face, " ", 1, &blank);
    return blank;
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
                const uint16_t *glyph, size_t count) {
    const struct face_form *form = face_form(face);
    hb_face_t *whole = subset_face(face);
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

static bool is_it(const struct kept_one *k, enum face face,
                  const uint16_t *glyph, size_t count) {
    return k->arena != NULL && k->face == face && k->subset.count == count &&
           memcmp(k->subset.glyph, glyph, count * sizeof *glyph) == 0;
}

/* `glyph` is rising. */
static const struct subset *from_kept(struct arena *a, struct subset_kept *kept,
                                      enum face face, const uint16_t *glyph,
                                      size_t count) {
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
        cut(a, s, face, glyph, count);
        return s;
    }
    /* Three faces or so of a document are far from the oldest of all. */
    if (oldest->arena != NULL)
        arena_free(oldest->arena);
    *oldest = (struct kept_one){
        .face = face, .arena = arena_new(), .used = ++kept->clock};
    cut(oldest->arena, &oldest->subset, face, glyph, count);
    return &oldest->subset;
}

/* Glyphs of a face, each once. */
struct glyph_set {
    bool *has; /* by number */
    size_t count;
};

static struct glyph_set glyph_set(struct arena *a, enum face face) {
    size_t all = (size_t)face_form(face)->glyph_count;
    return (struct glyph_set){arena_alloc(a, all, sizeof(bool)), all};
}

static void set_add(struct glyph_set *s, uint16_t glyph) {
    if (glyph < s->count)
        s->has[glyph] = true;
}

static const struct subset *make(struct arena *a, struct subset_kept *kept,
                                 enum face face, struct glyph_set *set) {
    enum { LETTERS = sizeof code_letters };
    const struct face_form *form = face_form(face);
    const char *letters = form->fixed_pitch ? code_letters : "";
    uint16_t always[LETTERS] = {0};
    glyphs_of(face, letters, strlen(letters), always);
    always[strlen(letters)] = subset_blank(face);
    for (size_t i = 0; i < LETTERS; i++)
        set_add(set, always[i]);
    uint16_t *glyph = arena_alloc(a, set->count, sizeof *glyph);
    size_t count = 0;
    for (size_t i = 0; i < set->count; i++)
        if (set->has[i])
            glyph[count++] = (uint16_t)i;
    return from_kept(a, kept, face, glyph, count);
}

const struct subset *subset_make(struct arena *a, struct subset_kept *kept,
                                 enum face face, const uint16_t *glyph,
                                 size_t count) {
    struct glyph_set set = glyph_set(a, face);
    for (size_t i = 0; i < count; i++)
        set_add(&set, glyph[i]);
    return make(a, kept, face, &set);
}

void subset_make_all(struct subset_kept *kept, const struct pages *pages) {
    struct arena *a = arena_new();
    struct glyph_set set[FACE_COUNT] = {{NULL, 0}};
    for (size_t i = 0; i < pages->count; i++)
        for (size_t k = 0; k < pages->page[i].op_count; k++) {
            const struct op *op = &pages->page[i].ops[k];
            if (op->kind != OP_TEXT)
                continue;
            struct glyph_set *s = &set[op->face];
            if (s->has == NULL)
                *s = glyph_set(a, op->face);
            for (size_t g = 0; g < op->glyph_count; g++)
                set_add(s, op->glyphs[g].id);
        }
    for (int f = 0; f < FACE_COUNT; f++)
        if (set[f].has != NULL)
            make(a, kept, (enum face)f, &set[f]);
    arena_free(a);
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

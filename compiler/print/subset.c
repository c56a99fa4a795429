/* subset.c - which subset a document takes: the one that is ready, or one that
 * is cut and kept for the next. */
#include "print/subset.h"

#include "base/arena.h"
#include "layout/face.h"

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
        cut_subset(a, s, face, glyph, count);
        return s;
    }
    /* Three faces or so of a document are far from the oldest of all. */
    if (oldest->arena != NULL)
        arena_free(oldest->arena);
    *oldest = (struct kept_one){
        .face = face, .arena = arena_new(), .used = ++kept->clock};
    cut_subset(oldest->arena, &oldest->subset, face, glyph, count);
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

/* The glyphs that are ready are in it, whatever else: most documents print with
 * no others. */
static const struct subset *make(struct arena *a, struct subset_kept *kept,
                                 enum face face, struct glyph_set *set) {
    const struct subset *ready = &subset_ready[face];
    for (size_t i = 0; i < ready->count; i++)
        set_add(set, ready->glyph[i]);
    uint16_t *glyph = arena_alloc(a, set->count, sizeof *glyph);
    size_t count = 0;
    for (size_t i = 0; i < set->count; i++)
        if (set->has[i])
            glyph[count++] = (uint16_t)i;
    return count == ready->count ? ready
                                 : from_kept(a, kept, face, glyph, count);
}

const struct subset *subset_make(struct arena *a, struct subset_kept *kept,
                                 enum face face, const uint16_t *glyph,
                                 size_t count) {
    struct glyph_set set = glyph_set(a, face);
    for (size_t i = 0; i < count; i++)
        set_add(&set, glyph[i]);
    return make(a, kept, face, &set);
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

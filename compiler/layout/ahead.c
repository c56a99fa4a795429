/* ahead.c - words that a guide will print, shaped before it is laid out.
 *
 * In which face a word will stand is not known yet: most stand in the regular
 * one, and again in the bold one as values, names and heads of tables. */
#include "layout/ahead.h"

#include "base/arena.h"
#include "checks/findings.h"
#include "layout/shape.h"
#include "source/tree.h"

#include <string.h>

struct ahead {
    struct arena *arena;
    struct shaper *shaper;
    const atomic_bool *enough;
};

static struct ahead ahead_open(struct shape_kept *kept,
                               const atomic_bool *enough) {
    struct arena *a = arena_new();
    return (struct ahead){a, shape_new(a, kept), enough};
}

static void ahead_close(struct ahead *h) {
    shape_free(h->shaper);
    arena_free(h->arena);
}

/* What parts words, and what marks them in the source and does not print. */
static bool is_between(char c) {
    return strchr(" \t\r\n|\"{}[]*`#", c) != NULL;
}

static void shape_words(const struct ahead *h, enum face face, struct text t) {
    for (size_t at = 0, end; at < t.len && !atomic_load(h->enough);
         at = end + 1) {
        end = at;
        while (end < t.len && !is_between(t.start[end]))
            end++;
        if (end > at)
            shape_word(h->shaper, face, text_part(t, at, end));
    }
}

void ahead_shape(struct shape_kept *kept, const struct guide *g,
                 const atomic_bool *enough) {
    struct ahead h = ahead_open(kept, enough);
    for (int f = 0; f < FACE_COUNT; f++)
        shape_words(&h, (enum face)f, text_of("0 1 2 3 4 5 6 7 8 9"));
    for (size_t i = 0; i < g->file_count; i++)
        shape_words(&h, FACE_REGULAR, g->files[i]->text);
    for (size_t i = 0; i < g->file_count; i++)
        shape_words(&h, FACE_BOLD, g->files[i]->text);
    ahead_close(&h);
}

static void shape_string(const struct ahead *h, enum face face,
                         const char *words) {
    if (words != NULL)
        shape_words(h, face, text_of(words));
}

static void shape_caution(const struct ahead *h, const struct caution *c) {
    shape_string(h, FACE_BOLD, c->title);
    shape_string(h, FACE_REGULAR, c->title);
    shape_string(h, FACE_REGULAR, c->hazard);
    shape_string(h, FACE_REGULAR, c->consequence);
    shape_string(h, FACE_REGULAR, c->avoidance);
}

static void shape_verdict(const struct ahead *h, const struct verdict *v) {
    shape_string(h, FACE_REGULAR, v->what);
    shape_string(h, FACE_REGULAR, v->value);
    shape_string(h, FACE_REGULAR, v->limit);
    shape_string(h, FACE_REGULAR, v->margin);
    shape_string(h, FACE_REGULAR, v->source);
}

static void shape_assumption(const struct ahead *h,
                             const struct assumption *one) {
    shape_string(h, FACE_REGULAR, one->what);
    shape_string(h, FACE_BOLD, one->value);
    shape_string(h, FACE_REGULAR, one->source);
}

void ahead_shape_findings(struct shape_kept *kept, const struct findings *f,
                          const struct values *v, const atomic_bool *enough) {
    const struct assumption *assumed;
    size_t count = values_assumptions(v, &assumed);
    struct ahead h = ahead_open(kept, enough);
    for (size_t i = 0; i < f->caution_count; i++)
        shape_caution(&h, &f->caution[i]);
    for (size_t i = 0; i < f->verdict_count; i++)
        shape_verdict(&h, &f->verdict[i]);
    for (size_t i = 0; i < count; i++)
        shape_assumption(&h, &assumed[i]);
    ahead_close(&h);
}

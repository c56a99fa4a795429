/* ahead.c - words that a guide will print, shaped before it is laid out.
 *
 * In which face a word will stand is not known yet: most stand in the regular
 * one, and again in the bold one as values, names and heads of tables. */
#include "layout/ahead.h"

#include "base/arena.h"
#include "layout/shape.h"
#include "source/tree.h"

#include <string.h>

/* What parts words, and what marks them in the source and does not print. */
static bool is_between(char c) {
    return strchr(" \t\r\n|\"{}[]*`#", c) != NULL;
}

static void shape_words(struct shaper *s, enum face face, struct text t,
                        const atomic_bool *enough) {
    for (size_t at = 0, end; at < t.len && !atomic_load(enough); at = end + 1) {
        end = at;
        while (end < t.len && !is_between(t.start[end]))
            end++;
        if (end > at)
            shape_word(s, face, text_part(t, at, end));
    }
}

void ahead_shape(struct shape_kept *kept, const struct guide *g,
                 const atomic_bool *enough) {
    static const enum face faces[] = {FACE_REGULAR, FACE_BOLD, FACE_OBLIQUE,
                                      FACE_MONO, FACE_SYMBOL};
    struct arena *a = arena_new();
    struct shaper *s = shape_new(a, kept);
    for (size_t f = 0; f < sizeof faces / sizeof faces[0]; f++)
        shape_words(s, faces[f], text_of("0 1 2 3 4 5 6 7 8 9"), enough);
    for (size_t f = 0; f < 2; f++)
        for (size_t i = 0; i < g->file_count; i++)
            shape_words(s, faces[f], g->files[i]->text, enough);
    shape_free(s);
    arena_free(a);
}

/* plain.c - titles and headings as plain text, with the values in them. */
#include "values/plain.h"

#include "base/arena.h"
#include "source/tree.h"

static void add(const struct values *v, struct buf *b, const struct inlines *t,
                variant_set s) {
    for (; t != NULL; t = t->next) {
        if (t->kind == INLINE_SPACE || t->kind == INLINE_BREAK)
            buf_puts(b, " ");
        else if (t->kind == INLINE_TEXT || t->kind == INLINE_CODE)
            buf_text(b, t->text);
        else if (t->kind == INLINE_MARK && t->mark->kind == MARK_VALUE) {
            const char *printed = values_print_mark(v, b->arena, t->mark, s);
            buf_puts(b, printed == NULL ? "" : printed);
        }
        add(v, b, t->first, s);
    }
}

struct text values_plain(const struct values *v, struct arena *a,
                         const struct inlines *t, variant_set s) {
    struct buf b = buf_in(a);
    add(v, &b, t, s);
    return text_squeezed(a, text_trim(buf_as_text(&b)));
}

struct text values_title(const struct values *v, struct arena *a,
                         const struct guide *g) {
    return g->title_text == NULL
               ? text_squeezed(a, g->title)
               : values_plain(v, a, g->title_text, values_applies(v));
}

/* cite.c - sources by number. */
#include "layout/cite.h"

#include "base/arena.h"

#define NBSP "\xC2\xA0"

static size_t number_of(const struct cited *c, struct text source) {
    for (size_t i = 0; i < c->count; i++)
        if (text_equal(c->list[i], source))
            return i + 1;
    return 0;
}

const char *cite(struct leaf *l, struct cited *c, const char *source) {
    struct text t = text_of(source);
    if (t.len == 0)
        return "";
    size_t number = number_of(c, t);
    if (number == 0) {
        if (c->count == c->room) {
            size_t room = c->room == 0 ? 16 : c->room * 2;
            c->list = arena_grow(l->composer.arena, c->list, c->count, room,
                                 sizeof *c->list);
            c->room = room;
        }
        c->list[c->count++] = t;
        number = c->count;
    }
    return arena_printf(l->composer.arena, NBSP "[%zu]", number);
}

/* Up to the next semicolon. */
static struct text first_part(struct text t) {
    size_t end = 0;
    while (end < t.len && !text_starts(text_part(t, end, t.len), "; "))
        end++;
    return text_part(t, 0, end);
}

/* A part that is itself a source of the list is named by its number. */
static void write_source(struct buf *b, const struct cited *c, size_t index) {
    struct text rest = c->list[index];
    buf_printf(b, "[%zu]" NBSP, index + 1);
    while (rest.len > 0) {
        struct text part = first_part(rest);
        size_t other = number_of(c, part);
        if (other > 0 && other != index + 1)
            buf_printf(b, "[%zu]", other);
        else
            buf_text(b, part);
        size_t end = part.len + 2;
        rest = text_part(rest, end < rest.len ? end : rest.len, rest.len);
        buf_puts(b, rest.len > 0 ? "; " : ".  ");
    }
}

void cite_list(struct leaf *l, const struct cited *c, struct columns *p,
               bool titled) {
    struct arena *a = l->composer.arena;
    struct buf b = buf_in(a);
    if (c->count == 0)
        return;
    struct rich *r = columns_add(a, p);
    if (!titled)
        leaf_add(l, r, l->style.least, FACE_BOLD, "Sources: ");
    for (size_t i = 0; i < c->count; i++)
        write_source(&b, c, i);
    leaf_add(l, r, l->style.least, FACE_REGULAR, buf_cstr(&b));
}

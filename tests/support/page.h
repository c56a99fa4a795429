/* page.h - the examples in the pages of docs/: blocks indented by four blanks.
 *
 * A header of static functions: each test program is one source file. */
#ifndef PAGE_H
#define PAGE_H

#include "base/arena.h"
#include "base/text.h"

#include <stdbool.h>

struct snippet {
    struct text above; /* the last line of text before it */
    struct text text;  /* without the indent, ends with a line end */
};

struct snippets {
    struct snippet *list;
    size_t count, room;
};

/* The line at *at, without its end; moves behind it. */
static struct text page_line(struct text page, size_t *at) {
    size_t from = *at;
    while (*at < page.len && page.start[*at] != '\n')
        ++*at;
    struct text line = text_part(page, from, *at);
    *at += *at < page.len;
    return line;
}

static void page_add(struct arena *a, struct snippets *s, struct text above,
                     struct buf *b) {
    if (b->len == 0)
        return;
    if (s->count == s->room) {
        s->room = s->room * 2 + 32;
        s->list = arena_grow(a, s->list, s->count, s->room, sizeof *s->list);
    }
    s->list[s->count++] = (struct snippet){above, buf_as_text(b)};
    *b = buf_in(a);
}

/* Blank lines belong to a snippet when indented lines follow them. */
static struct snippets page_snippets(struct arena *a, struct text page) {
    struct snippets s = {0};
    struct text above = {"", 0};
    struct buf b = buf_in(a);
    size_t blanks = 0;
    for (size_t at = 0; at < page.len;) {
        struct text line = page_line(page, &at);
        if (text_trim(line).len == 0) {
            blanks++;
            continue;
        }
        if (text_starts(line, "    ")) {
            for (; b.len > 0 && blanks > 0; blanks--)
                buf_puts(&b, "\n");
            buf_text(&b, text_part(line, 4, line.len));
            buf_puts(&b, "\n");
        } else {
            page_add(a, &s, above, &b);
            above = line;
        }
        blanks = 0;
    }
    page_add(a, &s, above, &b);
    return s;
}

#endif

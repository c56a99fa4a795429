/* address.c - the address of a link, as paper needs it. */
#include "layout/address.h"

#include "base/arena.h"
#include "base/text.h"

#include <string.h>

/* A blank of no width (U+200B): a line may end there, and nothing is seen. */
static const char parting[] = "\xE2\x80\x8B";

enum { PIECE_MAX = 24 }; /* letters in a row that stay together */

/* Without what a reader adds by himself. */
static struct text bare(struct text uri) {
    static const char *const schemes[] = {"https://", "mailto:"};
    for (size_t i = 0; i < sizeof schemes / sizeof schemes[0]; i++)
        if (text_starts(uri, schemes[i]))
            uri = text_part(uri, strlen(schemes[i]), uri.len);
    if (uri.len > 1 && uri.start[uri.len - 1] == '/')
        uri.len--;
    return uri;
}

bool address_is_words(struct text uri, struct text words) {
    return text_equal(bare(uri), bare(words));
}

static struct text parted(struct arena *a, struct text t) {
    struct buf b = buf_in(a);
    size_t letters = 0, scheme = 0; /* where its last sign is: "http://" */
    for (size_t at = 0; at + 3 <= t.len && scheme == 0; at++)
        if (text_starts(text_part(t, at, t.len), "://"))
            scheme = at + 2;
    for (size_t at = 0; at < t.len;) {
        size_t from = at;
        text_next(t, &at);
        buf_text(&b, text_part(t, from, at));
        bool ends = strchr("/?&=", t.start[from]) != NULL && from > scheme;
        letters = ends || letters + 1 == PIECE_MAX ? 0 : letters + 1;
        if (letters == 0 && at < t.len)
            buf_puts(&b, parting);
    }
    return buf_as_text(&b);
}

static struct text words_from(struct arena *a, const struct rich *r,
                              size_t from) {
    struct buf b = buf_in(a);
    for (size_t i = from; i < r->count; i++)
        buf_text(&b, r->chunk[i].text);
    return buf_as_text(&b);
}

void address_print(struct arena *a, struct rich *r, size_t from,
                   struct text uri, struct tone tone) {
    if (uri.len == 0 || uri.start[0] == '#' || from == r->count)
        return;
    struct span at = r->chunk[from].at;
    if (address_is_words(uri, words_from(a, r, from))) {
        for (size_t i = from; i < r->count; i++)
            r->chunk[i].text = parted(a, r->chunk[i].text);
        return;
    }
    rich_add(a, r, tone, text_of(" ("), at);
    rich_add(a, r, tone, parted(a, bare(uri)), at)->uri = uri;
    rich_add(a, r, tone, text_of(")"), at);
}

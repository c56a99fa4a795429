/* suggest.c - the end of a message about a word that is not known. */
#include "source/suggest.h"

#include "base/arena.h"

const char *suggest(struct arena *a, struct text word, struct text near) {
    struct buf b = buf_in(a);
    if (near.len > 0) {
        buf_puts(&b, " (did you mean '");
        buf_text(&b, near);
        buf_puts(&b, "'?)");
    }
    for (size_t i = 0; i < word.len;) {
        size_t from = i;
        uint32_t code = text_next(word, &i);
        if (code < 0x80)
            continue;
        buf_puts(&b, "; '");
        buf_text(&b, text_part(word, from, i));
        buf_printf(&b, "' is U+%04X", (unsigned)code);
        break; /* one is enough to find the rest */
    }
    return buf_cstr(&b);
}

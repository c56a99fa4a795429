/* suggest.c - the end of a message about a word that is not known. */
#include "source/suggest.h"

#include "base/arena.h"

/* Blanks that editors and web pages put in place of the plain one. */
static bool is_blank(uint32_t code) {
    return code == 0xA0 || code == 0x1680 ||
           (code >= 0x2000 && code <= 0x200A) || code == 0x202F ||
           code == 0x205F || code == 0x3000;
}

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
        if (is_blank(code)) {
            buf_printf(&b, "; U+%04X stands for a blank", (unsigned)code);
            break;
        }
        buf_puts(&b, "; '");
        buf_text(&b, text_part(word, from, i));
        buf_printf(&b, "' is U+%04X", (unsigned)code);
        break; /* one is enough to find the rest */
    }
    return buf_cstr(&b);
}

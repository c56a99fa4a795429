/* link.c - where a link or image may lead. */
#include "source/link.h"

#include "base/diag.h"
#include "source/file.h"
#include "stages.h"

#include <ctype.h>
#include <stdint.h>
#include <string.h>

/* Entities and escapes can put anything into an address. */
static bool is_clean(struct text url) {
    for (size_t i = 0; i < url.len; i++)
        if ((unsigned char)url.start[i] <= ' ' || url.start[i] == 0x7F)
            return false;
    return url.len > 0;
}

static bool has_scheme(struct text url, const char *scheme) {
    size_t len = strlen(scheme);
    if (url.len <= len)
        return false;
    for (size_t i = 0; i < len; i++)
        if (tolower((unsigned char)url.start[i]) != scheme[i])
            return false;
    return true;
}

static bool leads(struct text url) {
    return has_scheme(url, "http://") || has_scheme(url, "https://") ||
           has_scheme(url, "mailto:") || (url.len > 1 && url.start[0] == '#');
}

void link_check(struct compile *c, struct text url, struct span at) {
    if (leads(url) && is_clean(url))
        return;
    diag_add(c->diags, DIAG_LINK_REFUSED, at,
             "'%.*s'; a link leads to http, https, mailto, or to #name in the "
             "guide",
             (int)url.len, url.start);
}

/* Up to a sign that ends it, on this line; SIZE_MAX: none does. */
static size_t end_at(struct text t, size_t from, char sign) {
    for (size_t i = from; i < t.len && t.start[i] != '\n'; i++)
        if (t.start[i] == sign)
            return i;
    return SIZE_MAX;
}

bool link_refuse_in(struct compile *c, const struct source *src,
                    struct text t) {
    for (size_t i = 0; i + 1 < t.len; i++) {
        bool bare = t.start[i] == '<';
        if (!bare && (t.start[i] != ']' || t.start[i + 1] != '('))
            continue;
        size_t from = bare ? i + 1 : i + 2;
        size_t end = end_at(t, from, bare ? '>' : ')'), first = i;
        if (end == SIZE_MAX || !leads(text_part(t, from, end)))
            continue;
        while (!bare && first > 0 && t.start[first] != '[')
            first--;
        struct text url = text_part(t, from, end);
        struct span at = place_of(src, text_part(t, first, end + 1));
        if (url.start[0] == '#')
            diag_add(c->diags, DIAG_LINK_REFUSED, at,
                     "a cell or a setting prints as it is written; here write "
                     "{see %.*s}",
                     (int)url.len - 1, url.start + 1);
        else
            diag_add(c->diags, DIAG_LINK_REFUSED, at,
                     "a cell or a setting prints as it is written; here write "
                     "the address alone, %.*s, or link to it from the text",
                     (int)url.len, url.start);
        return true;
    }
    return false;
}

void link_check_image(struct compile *c, struct text url, struct span at) {
    if (file_is_within(url))
        return;
    diag_add(
        c->diags, DIAG_FILE_OUTSIDE, at,
        "'%.*s'; an image is named by its path from the library's procedures/",
        (int)url.len, url.start);
}

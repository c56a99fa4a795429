/* link.c - where a link or image may lead. */
#include "source/link.h"

#include "base/diag.h"
#include "source/file.h"
#include "stages.h"

#include <ctype.h>
#include <stdbool.h>
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

void link_check(struct compile *c, struct text url, struct span at) {
    bool good = has_scheme(url, "http://") || has_scheme(url, "https://") ||
                has_scheme(url, "mailto:") ||
                (url.len > 1 && url.start[0] == '#');
    if (good && is_clean(url))
        return;
    diag_add(c->diags, DIAG_LINK_REFUSED, at,
             "'%.*s'; a link leads to http, https, mailto, or to #name in the "
             "guide",
             (int)url.len, url.start);
}

void link_check_image(struct compile *c, struct text url, struct span at) {
    if (file_is_within(url))
        return;
    diag_add(
        c->diags, DIAG_FILE_OUTSIDE, at,
        "'%.*s'; an image is named by its path from the library's procedures/",
        (int)url.len, url.start);
}

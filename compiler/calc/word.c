/* word.c - matching the words that name rows of a table. */
#include "calc/word.h"

#include <string.h>

static bool blank(char c) {
    return c == ' ' || c == '\t' || c == '\n' || c == '-';
}

static char lower(char c) {
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

void word_trim(const char **text, size_t *len) {
    while (*len > 0 && blank(**text) && **text != '-') {
        (*text)++;
        (*len)--;
    }
    while (*len > 0 && blank((*text)[*len - 1]) && (*text)[*len - 1] != '-')
        (*len)--;
}

/* Bytes of text that `name` matches from its beginning; 0 when it does not. */
static size_t matched(const char *text, size_t len, const char *name) {
    size_t at = 0;
    for (const char *n = name; *n; n++) {
        if (at == len)
            return 0;
        if (blank(*n)) {
            if (!blank(text[at]))
                return 0;
            while (at < len && blank(text[at]))
                at++;
        } else if (lower(text[at]) == lower(*n)) {
            at++;
        } else if (n - name < 6 || strncmp(n - 6, "aluminium", 7) != 0) {
            return 0; /* aluminum is aluminium */
        }
    }
    return at;
}

bool word_is(const char *text, size_t len, const char *name) {
    word_trim(&text, &len);
    return len > 0 && matched(text, len, name) == len;
}

bool word_drop(const char **text, size_t *len, const char *first) {
    word_trim(text, len);
    size_t used = matched(*text, *len, first);
    if (used == 0 || used == *len || !blank((*text)[used]))
        return false;
    *text += used;
    *len -= used;
    while (*len > 0 && blank(**text)) {
        (*text)++;
        (*len)--;
    }
    return true;
}

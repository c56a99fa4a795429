/* stress.c - Markdown's signs around words that a text would print as they are:
 * a cell or a setting, where nothing but {...} is read. */
#include "source/stress.h"

#include "base/diag.h"
#include "source/mark.h"
#include "stages.h"

static bool is_blank(char c) {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

/* Letters, digits and all beyond ASCII: a star behind one leads to a note. */
static bool is_in_word(char c) {
    return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') ||
           (c >= 'A' && c <= 'Z') || (unsigned char)c >= 0x80;
}

/* How many of one sign stand here. */
static size_t run_at(struct text t, size_t at) {
    size_t n = 1;
    while (at + n < t.len && t.start[at + n] == t.start[at])
        n++;
    return n;
}

static bool is_opened_at(struct text t, size_t at, size_t n) {
    if (t.start[at] == '`')
        return true;
    return at + n < t.len && !is_blank(t.start[at + n]) &&
           (at == 0 || !is_in_word(t.start[at - 1]));
}

/* Where as many signs close what these opened; t.len: nowhere. */
static size_t closed_at(struct text t, size_t at, size_t n) {
    char sign = t.start[at];
    for (size_t i = at + n; i < t.len; i++) {
        while (i < t.len && t.start[i] == '{')
            i = mark_skip(t, i);
        if (i >= t.len || t.start[i] != sign)
            continue;
        size_t many = run_at(t, i), end = i + many;
        bool closes =
            sign == '`' || (!is_blank(t.start[i - 1]) &&
                            (end == t.len || !is_in_word(t.start[end])));
        if (many == n && closes)
            return i;
        i = end - 1;
    }
    return t.len;
}

enum { SIGNS_MAX = 3 }; /* ***bold italics*** */

bool stress_refuse_in(struct compile *c, const struct source *src,
                      struct text t) {
    /* What closes none of the first closes none of those behind it: a long text
     * is not read again for each. */
    bool unclosed[2][SIGNS_MAX + 1] = {{false}};
    for (size_t i = 0; i < t.len; i++) {
        while (i < t.len && t.start[i] == '{')
            i = mark_skip(t, i);
        if (i >= t.len || (t.start[i] != '*' && t.start[i] != '`'))
            continue;
        size_t n = run_at(t, i), end = t.len;
        bool opens = n <= SIGNS_MAX && is_opened_at(t, i, n);
        bool *none = opens ? &unclosed[t.start[i] == '`'][n] : NULL;
        if (opens && !*none)
            end = closed_at(t, i, n);
        if (end == t.len) {
            if (opens)
                *none = true;
            i += n - 1;
            continue;
        }
        struct text inner = text_part(t, i + n, end);
        diag_add(c->diags, DIAG_STRESS_REFUSED,
                 place_of(src, text_part(t, i, end + n)),
                 "a cell or a setting prints as it is written; here write %.*s",
                 (int)inner.len, inner.start);
        return true;
    }
    return false;
}

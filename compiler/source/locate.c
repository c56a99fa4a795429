/* locate.c - the place of running text in its source. */
#include "source/locate.h"

#include <string.h>

enum {
    SURE_BYTES = 32, /* so many equal bytes decide that a place is right */
    ENTITY_MAX = 40, /* longer than the longest named one */
};

static bool is_markup(char c) {
    return c != '\0' && strchr("*_[]!<>#\\` \t\r\n", c) != NULL;
}

static bool is_punctuation(char c) {
    return (c >= '!' && c <= '/') || (c >= ':' && c <= '@') ||
           (c >= '[' && c <= '`') || (c >= '{' && c <= '~');
}

static bool is_alnum(char c) {
    return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') ||
           (c >= 'A' && c <= 'Z');
}

/* Bytes of `&name;` or `&#12;` at `at`, or 0. */
static size_t entity_length(struct text t, size_t at) {
    size_t i = at + 1;
    if (i < t.len && t.start[i] == '#')
        i++;
    size_t from = i;
    while (i < t.len && i - at < ENTITY_MAX && is_alnum(t.start[i]))
        i++;
    bool closed = i < t.len && t.start[i] == ';' && i > from;
    return closed ? i + 1 - at : 0;
}

static bool is_ampersand(struct text entity) {
    return text_is(entity, "&amp;") || text_is(entity, "&AMP;") ||
           text_is(entity, "&#38;") || text_is(entity, "&#x26;") ||
           text_is(entity, "&#X26;");
}

/* Walks piece and source side by side from `at`. Returns how many bytes of the
 * piece agree; *end is the byte of the source behind them. */
static size_t walk(struct text t, size_t at, struct text piece, size_t most,
                   size_t *end, bool *same) {
    size_t i = 0;
    *same = true;
    while (i < piece.len && i < most && at < t.len) {
        char s = t.start[at], c = piece.start[i];
        size_t entity = s == '&' ? entity_length(t, at) : 0;
        if (s == '\\' && at + 1 < t.len && t.start[at + 1] == c &&
            is_punctuation(c)) {
            *same = false;
            at += 2;
            i++;
        } else if (entity > 0 &&
                   (c != '&' || is_ampersand(text_part(t, at, at + entity)))) {
            *same = false;
            at += entity;
            text_next(piece, &i);
        } else if (s == c) {
            at++;
            i++;
        } else {
            break;
        }
    }
    *end = at;
    return i;
}

struct located locate_text(struct locator *l, struct text piece) {
    struct located found = {l->at, l->at, false};
    size_t enough = piece.len < SURE_BYTES ? piece.len : SURE_BYTES;
    size_t at = l->at, end = at;
    while (at < l->text.len) {
        bool same;
        if (walk(l->text, at, piece, enough, &end, &same) >= enough) {
            found.start = at;
            size_t done =
                walk(l->text, at, piece, piece.len, &found.end, &found.same);
            found.same = found.same && done == piece.len;
            l->at = found.end;
            return found;
        }
        if (!is_markup(l->text.start[at]))
            break;
        at++;
    }
    /* What was stepped over is not looked at again: many pieces that cannot be
     * found must not cost more than one look at the text. */
    l->at = at;
    return found;
}

struct located locate_code(struct locator *l) {
    struct text t = l->text;
    size_t at = l->at;
    while (at < t.len && t.start[at] != '`' && is_markup(t.start[at]))
        at += t.start[at] == '\\' ? 2 : 1;
    size_t inner = at;
    while (inner < t.len && t.start[inner] == '`')
        inner++;
    size_t len = inner - at;
    for (size_t i = inner; len > 0 && i < t.len;) {
        size_t from = i;
        while (i < t.len && t.start[i] == '`')
            i++;
        if (i - from == len) {
            l->at = i;
            return (struct located){at, i, false};
        }
        i = i == from ? i + 1 : i;
    }
    l->at = inner < t.len ? inner : t.len;
    return (struct located){l->at, l->at, false};
}

void locate_line_end(struct locator *l) {
    while (l->at < l->text.len && l->text.start[l->at] != '\n')
        l->at++;
    if (l->at < l->text.len)
        l->at++;
}

/* Behind the bracket that closes the one at `at`, or `at` when none does. */
static size_t closed_by(struct text t, size_t at, char open, char close) {
    size_t depth = 0;
    for (size_t i = at; i < t.len; i++) {
        if (t.start[i] == '\\')
            i++;
        else if (t.start[i] == open)
            depth++;
        else if (t.start[i] == close && --depth == 0)
            return i + 1;
    }
    return at;
}

void locate_link_end(struct locator *l) {
    struct text t = l->text;
    size_t at = l->at;
    while (at < t.len && t.start[at] != ']' && t.start[at] != '>' &&
           is_markup(t.start[at]))
        at++;
    if (at >= t.len || (t.start[at] != ']' && t.start[at] != '>'))
        return;
    bool bracket = t.start[at] == ']';
    l->at = ++at;
    if (bracket && at < t.len && t.start[at] == '(')
        l->at = closed_by(t, at, '(', ')');
    else if (bracket && at < t.len && t.start[at] == '[')
        l->at = closed_by(t, at, '[', ']');
}

/* scan.c - a cursor over the text of one value, and its messages. */
#include "values/scan.h"

#include "base/arena.h"

#include <stdarg.h>
#include <string.h>

static bool is_blank(char c) {
    return c == ' ' || c == '\n' || c == '\r' || c == '\t';
}

static bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

void scan_blanks(struct scan *s) {
    while (s->at < s->text.len && is_blank(s->text.start[s->at]))
        s->at++;
}

bool scan_end(struct scan *s) {
    scan_blanks(s);
    return s->at == s->text.len;
}

char scan_peek(const struct scan *s) {
    return s->at < s->text.len ? s->text.start[s->at] : '\0';
}

static bool at_token(const struct scan *s, const char *token) {
    return text_starts(text_part(s->text, s->at, s->text.len), token);
}

static bool blank_at(const struct scan *s, size_t at) {
    return at >= s->text.len || is_blank(s->text.start[at]);
}

bool scan_take(struct scan *s, const char *token) {
    scan_blanks(s);
    if (!at_token(s, token))
        return false;
    s->at += strlen(token);
    return true;
}

bool scan_take_word(struct scan *s, const char *word) {
    if (!text_is(scan_word(s), word))
        return false;
    s->at += strlen(word);
    return true;
}

bool scan_take_operator(struct scan *s, const char *operator) {
    size_t before = s->at;
    scan_blanks(s);
    bool parted = s->at > before || (s->at > 0 && blank_at(s, s->at - 1));
    if (parted && at_token(s, operator) &&
        blank_at(s, s->at + strlen(operator))) {
        s->at += strlen(operator);
        return true;
    }
    s->at = before;
    return false;
}

struct text scan_word(struct scan *s) {
    scan_blanks(s);
    size_t end = s->at;
    while (end < s->text.len && !is_blank(s->text.start[end]) &&
           strchr("(),^", s->text.start[end]) == NULL)
        end++;
    return text_part(s->text, s->at, end);
}

bool scan_at_number(struct scan *s) {
    scan_blanks(s);
    struct text rest = text_part(s->text, s->at, s->text.len);
    size_t sign = text_starts(rest, "-")              ? 1
                  : text_starts(rest, "\xE2\x88\x92") ? 3 /* minus sign */
                                                      : 0;
    if (sign == rest.len)
        return false;
    return is_digit(rest.start[sign]) ||
           (rest.start[sign] == '.' && sign + 1 < rest.len &&
            is_digit(rest.start[sign + 1]));
}

struct span scan_span(const struct scan *s, size_t from, size_t to) {
    if (s->src == NULL)
        return s->near;
    return place_of(s->src, text_part(s->text, from, to));
}

void scan_fail(struct scan *s, enum diag_id id, size_t from, size_t to,
               const char *detail, ...) {
    if (s->failed)
        return;
    s->failed = true;
    struct span at = scan_span(s, from, to);
    if (detail == NULL) {
        diag_add(s->diags, id, at, NULL);
        return;
    }
    va_list args;
    va_start(args, detail);
    diag_add(s->diags, id, at, "%s", arena_vprintf(s->arena, detail, args));
    va_end(args);
}

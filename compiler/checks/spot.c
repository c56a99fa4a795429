/* spot.c - numbers with a unit in running text.
 *
 * It reads what people write, not the source language: typographic blanks,
 * dashes between two numbers, ½, 12-volt. What it finds is worded so that it
 * can be put into braces. */
#include "checks/spot.h"

#include "base/arena.h"
#include "calc/unit.h"
#include "checks/unit_meant.h"

#include <string.h>
#include <strings.h>

static bool is_digit(uint32_t c) {
    return c >= '0' && c <= '9';
}

/* Letters that a number cannot follow at once. Above Latin-1's signs and below
 * the general punctuation all that is written with is a letter. */
static bool is_letter(uint32_t c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' ||
           (c >= 0xC0 && c < 0x2000 && c != 0xD7 && c != 0xF7);
}

static bool is_blank(uint32_t c) {
    return c == ' ' || c == '\n' || c == 0xA0 || c == 0x2009 || c == 0x202F;
}

static bool is_dash(uint32_t c) {
    return c == '-' || (c >= 0x2010 && c <= 0x2014) || c == 0x2212;
}

static const char *fraction(uint32_t c) {
    switch (c) {
    case 0xBC:
        return "1/4";
    case 0xBD:
        return "1/2";
    case 0xBE:
        return "3/4";
    case 0x215B:
        return "1/8";
    case 0x215C:
        return "3/8";
    case 0x215D:
        return "5/8";
    case 0x215E:
        return "7/8";
    default:
        return NULL;
    }
}

/* The code point at byte `at`, and the byte behind it; 0 at the end. */
static uint32_t peek(struct text t, size_t at, size_t *next) {
    *next = at;
    return at < t.len ? text_next(t, next) : 0;
}

static uint32_t code_at(struct text t, size_t at) {
    size_t next;
    return peek(t, at, &next);
}

/* The code point that ends before byte `at`, and where it begins. */
static uint32_t before(struct text t, size_t at, size_t *start) {
    *start = at;
    if (at == 0)
        return 0;
    do
        (*start)--;
    while (*start > 0 && ((unsigned char)t.start[*start] & 0xC0) == 0x80);
    return code_at(t, *start);
}

/* Whether a number may begin at `at`: it is not the end of a name or number. A
 * dash is a minus sign unless it joins. */
static bool may_begin(struct text t, size_t at) {
    size_t start, earlier;
    uint32_t last = before(t, at, &start);
    uint32_t second = before(t, start, &earlier);
    if (last == 'x' || last == 0xD7)
        return is_digit(second) || is_blank(second);
    if (is_letter(last) || is_digit(last) || last == '#' || last == '.')
        return false;
    if (is_dash(last))
        return !is_letter(second) && !is_digit(second) && second != ')';
    return last != '/' || !is_digit(second);
}

static size_t digits(struct text t, size_t at) {
    size_t n = 0;
    while (at + n < t.len && is_digit((unsigned char)t.start[at + n]))
        n++;
    return n;
}

/* "7/16" at byte `at`; 0: there is none. */
static size_t slashed(struct text t, size_t at) {
    size_t above = digits(t, at);
    if (above == 0 || code_at(t, at + above) != '/')
        return 0;
    size_t below = digits(t, at + above + 1);
    return below == 0 ? 0 : above + 1 + below;
}

/* A number: 5, 5.5, 1,500, 7/16, 1 1/2, 2½. The byte behind it, or `at`. */
static size_t read_number(struct text t, size_t at, struct buf *out) {
    size_t next, from = at;
    const char *sign = fraction(peek(t, at, &next));
    if (sign != NULL) {
        buf_puts(out, sign);
        return next;
    }
    size_t n = slashed(t, at);
    bool whole = n == 0;
    at += whole ? digits(t, at) : n;
    while (whole && at < t.len && strchr(".,", t.start[at]) != NULL &&
           digits(t, at + 1) > 0) {
        at++;
        at += digits(t, at);
    }
    bool point_first = from < t.len && t.start[from] == '.' && at > from;
    buf_puts(out, point_first ? "0" : "");
    buf_text(out, text_part(t, from, at));
    if (!whole || at == from)
        return at;
    sign = fraction(peek(t, at, &next));
    if (sign != NULL) {
        buf_printf(out, " %s", sign);
        return next;
    }
    if (is_blank(peek(t, at, &next)) && slashed(t, next) > 0) {
        n = slashed(t, next);
        buf_puts(out, " ");
        buf_text(out, text_part(t, next, next + n));
        return next + n;
    }
    return at;
}

/* The second number of "5–10", "5 to 10", "5 ± 1"; the byte behind it. */
static size_t read_second(struct text t, size_t at, struct buf *out) {
    size_t next, to = at;
    if (is_blank(peek(t, to, &next)))
        to = next;
    struct text rest = text_part(t, to, t.len);
    const char *joint;
    uint32_t c = peek(t, to, &next);
    if (text_starts(rest, "to ")) {
        joint = " to ";
        next = to + 2;
    } else if (c == 0xB1) {
        joint = " \xC2\xB1 ";
    } else if (is_dash(c)) {
        joint = " to ";
    } else {
        return at;
    }
    size_t start = next;
    if (is_blank(peek(t, next, &start)))
        next = start;
    if (digits(t, next) == 0)
        return at;
    buf_puts(out, joint);
    return read_number(t, next, out);
}

/* "2 in the manual": `in` is a word where an article follows. */
static bool is_preposition(struct text unit, struct text rest) {
    static const char *const after[] = {"the",  "a",     "an",   "this",
                                        "that", "its",   "your", "each",
                                        "all",  "order", "turn"};
    if (unit.len != 2 || strncasecmp(unit.start, "in", 2) != 0)
        return false;
    rest = text_trim(rest);
    size_t len = 0;
    while (len < rest.len && is_letter((unsigned char)rest.start[len]))
        len++;
    for (size_t i = 0; i < sizeof after / sizeof after[0]; i++)
        if (len == strlen(after[i]) &&
            strncasecmp(rest.start, after[i], len) == 0)
            return true;
    return false;
}

/* Signs and blanks that end a word and that no unit has in it. */
static bool ends_word(uint32_t c) {
    return c >= 0x80 && (is_blank(c) || is_dash(c) || c == 0xB1 || c == 0xD7 ||
                         (c >= 0x2018 && c <= 0x201F) || c == 0x2026 ||
                         (c >= 0x2190 && c <= 0x21FF));
}

/* Up to where a unit can go on: not over 12V/24V. */
static struct text unit_room(struct text rest) {
    for (size_t at = 0, next; at < rest.len; at = next) {
        uint32_t c = peek(rest, at, &next);
        if (ends_word(c) || (c == '/' && is_digit(code_at(rest, next))))
            return text_part(rest, 0, at);
    }
    return rest;
}

/* A unit at the beginning of rest; its bytes. *meant: its right spelling where
 * that is another. */
static size_t unit_length(struct arena *a, struct text rest,
                          const char **meant) {
    rest = unit_room(text_part(rest, 0, rest.len < 40 ? rest.len : 40));
    if (text_starts(rest, "AWG") && !is_letter(code_at(rest, 3)) &&
        !is_digit(code_at(rest, 3)))
        return 3;
    size_t used = 0;
    if (unit_prefix(rest.start, rest.len, &used) != NULL)
        return used;
    /* Volts */
    if (rest.len >= 3 && rest.start[0] >= 'A' && rest.start[0] <= 'Z' &&
        rest.start[1] >= 'a' && rest.start[1] <= 'z') {
        char *small = arena_copy(a, rest.start, rest.len < 20 ? rest.len : 20);
        small[0] = (char)(small[0] - 'A' + 'a');
        bool known = unit_prefix(small, rest.len < 20 ? rest.len : 20, &used);
        if (known && used > 2)
            return used;
    }
    return unit_meant(rest, meant);
}

/* "1980s": the years, not seconds, of a number that ends at `at`. */
static bool is_decade(struct text t, size_t at, struct text unit) {
    return text_is(unit, "s") && unit.start == t.start + at && at >= 4 &&
           digits(t, at - 4) == 4;
}

/* 40C, 104 F: nobody means coulombs or farads by them. */
static const char *degrees(struct text unit) {
    return text_is(unit, "C") ? "degC" : text_is(unit, "F") ? "degF" : NULL;
}

/* A unit behind the number, with or without a blank or hyphen; the byte behind
 * it, or `at`. */
static size_t read_unit(struct arena *a, struct text t, size_t at,
                        struct buf *out) {
    size_t start = at, next;
    uint32_t c = peek(t, at, &next);
    bool hyphen = c == '-' || c == 0x2010 || c == 0x2011;
    if (is_blank(c) || hyphen)
        start = next;
    struct text rest = text_part(t, start, t.len);
    /* 3' and 3" only straight behind the digit; no unit begins with a digit. */
    if (rest.len == 0 || is_digit((unsigned char)rest.start[0]) ||
        (start > at && strchr("'\"", rest.start[0]) != NULL))
        return at;
    const char *meant = NULL;
    size_t len = unit_length(a, rest, &meant);
    struct text unit = text_part(rest, 0, len);
    struct text behind = text_part(rest, len, rest.len);
    if (len == 0 || is_preposition(unit, behind) || is_decade(t, at, unit) ||
        (hyphen && behind.len > 0 && is_dash(code_at(behind, 0))))
        return at;
    if (degrees(unit) != NULL)
        meant = degrees(unit);
    buf_puts(out, start > at || meant != NULL ? " " : "");
    buf_puts(out, meant != NULL ? meant : "");
    for (size_t i = 0; meant == NULL && i < unit.len;) {
        size_t from = i;
        uint32_t one = text_next(unit, &i);
        if (is_blank(one))
            buf_puts(out, " ");
        else
            buf_text(out, text_part(unit, from, i));
    }
    return start + len;
}

static bool read_spot(struct arena *a, struct text t, size_t at,
                      struct spot *out) {
    size_t sign, from = at;
    struct buf b = buf_in(a);
    uint32_t last = before(t, at, &sign);
    if (is_dash(last)) {
        buf_puts(&b, "-");
        from = sign;
    }
    size_t to = read_number(t, at, &b);
    if (to == at)
        return false;
    to = read_second(t, to, &b);
    size_t end = read_unit(a, t, to, &b);
    *out = (struct spot){from, end, buf_cstr(&b)};
    return end > to;
}

/* Behind a number that has no unit, so that 1984 is not looked at as 984. */
static size_t skip_number(struct text t, size_t at) {
    while (at < t.len &&
           (is_digit((unsigned char)t.start[at]) ||
            (strchr("./,", t.start[at]) != NULL && digits(t, at + 1) > 0)))
        at++;
    return at;
}

bool spot_next(struct arena *a, struct text t, size_t at, struct spot *out) {
    while (at < t.len) {
        size_t next;
        uint32_t c = peek(t, at, &next);
        bool number = is_digit(c) || fraction(c) != NULL ||
                      (c == '.' && digits(t, at + 1) > 0);
        if (number && may_begin(t, at) && read_spot(a, t, at, out))
            return true;
        at = is_digit(c) ? skip_number(t, at) : next;
    }
    return false;
}

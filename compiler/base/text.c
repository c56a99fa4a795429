/* text.c - strings as a pointer and a length, mostly slices of a source. */
#include "base/text.h"

#include "base/arena.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* The next byte; U+00A0 as a blank. */
static char next_reading(struct text *t) {
    char c = t->start[0];
    bool hold = t->len > 1 && c == '\xC2' && t->start[1] == '\xA0';
    *t = text_part(*t, hold ? 2 : 1, t->len);
    return hold ? ' ' : c;
}

bool text_reads_same(struct text a, struct text b) {
    while (a.len > 0 && b.len > 0)
        if (next_reading(&a) != next_reading(&b))
            return false;
    return a.len == b.len;
}

uint64_t text_hash(struct text t) {
    uint64_t hash = 0xCBF29CE484222325u;
    for (size_t i = 0; i < t.len; i++)
        hash = (hash ^ (unsigned char)t.start[i]) * 0x100000001B3u;
    return hash;
}

int text_compare(struct text a, struct text b) {
    size_t shorter = a.len < b.len ? a.len : b.len;
    int order = shorter == 0 ? 0 : memcmp(a.start, b.start, shorter);
    if (order != 0)
        return order;
    return (a.len > b.len) - (a.len < b.len);
}

static bool is_blank(char c) {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

struct text text_trim(struct text t) {
    while (t.len > 0 && is_blank(t.start[0])) {
        t.start++;
        t.len--;
    }
    while (t.len > 0 && is_blank(t.start[t.len - 1]))
        t.len--;
    return t;
}

struct text text_part(struct text t, size_t from, size_t to) {
    /* 0 added to a text that is not there would be undefined */
    return (struct text){from == 0 ? t.start : t.start + from, to - from};
}

bool text_next_part(struct text *rest, char separator, struct text *part) {
    if (rest->start == NULL)
        return false;
    size_t end = 0;
    while (end < rest->len && rest->start[end] != separator)
        end++;
    *part = text_trim(text_part(*rest, 0, end));
    *rest = end < rest->len ? text_part(*rest, end + 1, rest->len)
                            : (struct text){NULL, 0};
    return true;
}

const char *text_cstr(struct arena *a, struct text t) {
    return arena_copy(a, t.start, t.len);
}

struct text text_squeezed(struct arena *a, struct text t) {
    char *out = arena_alloc(a, t.len + 1, 1);
    size_t len = 0;
    t = text_trim(t);
    for (size_t i = 0; i < t.len; i++) {
        if (!is_blank(t.start[i]))
            out[len++] = t.start[i];
        else if (len > 0 && out[len - 1] != ' ')
            out[len++] = ' ';
    }
    return (struct text){out, len};
}

/* UTF-8 per RFC 3629: no overlong forms, no surrogates, at most U+10FFFF. */
uint32_t text_next(struct text t, size_t *at) {
    const unsigned char *s = (const unsigned char *)t.start + *at;
    size_t left = t.len - *at;
    size_t more = s[0] < 0x80   ? 0
                  : s[0] < 0xC2 ? 4
                  : s[0] < 0xE0 ? 1
                  : s[0] < 0xF0 ? 2
                  : s[0] < 0xF5 ? 3
                                : 4;
    if (more == 4 || left <= more) {
        (*at)++;
        return 0xFFFD;
    }
    static const unsigned char lead_mask[] = {0x7F, 0x1F, 0x0F, 0x07};
    static const uint32_t least[] = {0, 0x80, 0x800, 0x10000};
    uint32_t code = s[0] & lead_mask[more];
    for (size_t i = 1; i <= more; i++) {
        if ((s[i] & 0xC0) != 0x80) {
            (*at)++;
            return 0xFFFD;
        }
        code = code << 6 | (s[i] & 0x3F);
    }
    if (code < least[more] || code > 0x10FFFF ||
        (code >= 0xD800 && code <= 0xDFFF)) {
        (*at)++;
        return 0xFFFD;
    }
    *at += more + 1;
    return code;
}

size_t text_encode(uint32_t code, char out[4]) {
    unsigned char *o = (unsigned char *)out;
    if (code < 0x80) {
        o[0] = (unsigned char)code;
        return 1;
    }
    if (code < 0x800) {
        o[0] = (unsigned char)(0xC0 | code >> 6);
        o[1] = (unsigned char)(0x80 | (code & 0x3F));
        return 2;
    }
    if (code < 0x10000) {
        o[0] = (unsigned char)(0xE0 | code >> 12);
        o[1] = (unsigned char)(0x80 | (code >> 6 & 0x3F));
        o[2] = (unsigned char)(0x80 | (code & 0x3F));
        return 3;
    }
    o[0] = (unsigned char)(0xF0 | (code >> 18 & 0x07));
    o[1] = (unsigned char)(0x80 | (code >> 12 & 0x3F));
    o[2] = (unsigned char)(0x80 | (code >> 6 & 0x3F));
    o[3] = (unsigned char)(0x80 | (code & 0x3F));
    return 4;
}

size_t text_columns(struct text t) {
    size_t columns = 0;
    for (size_t at = 0; at < t.len; columns++)
        text_next(t, &at);
    return columns;
}

struct nearest nearest_to(struct text wanted) {
    return (struct nearest){.wanted = wanted, .distance = (size_t)-1};
}

enum { NEAREST_MAX = 40 };

static char lower(char c) {
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

static bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

/* 2 for another letter, 1 for the same one in another case. Another digit is
 * another thing, and seldom a slip: R2 is not R1. */
static size_t letter_cost(char a, char b) {
    if (a == b)
        return 0;
    return lower(a) == lower(b) ? 1 : is_digit(a) && is_digit(b) ? 4 : 2;
}

/* Edits with swapped neighbours (optimal string alignment), bytewise: 2 each,
 * 1 for a change of case, 4 for another digit. */
static size_t edit_distance(struct text a, struct text b) {
    size_t row[3][NEAREST_MAX + 1];
    for (size_t j = 0; j <= b.len; j++)
        row[0][j] = 2 * j;
    for (size_t i = 1; i <= a.len; i++) {
        size_t *now = row[i % 3], *last = row[(i + 2) % 3];
        size_t *before = row[(i + 1) % 3];
        now[0] = 2 * i;
        for (size_t j = 1; j <= b.len; j++) {
            size_t best =
                last[j - 1] + letter_cost(a.start[i - 1], b.start[j - 1]);
            if (last[j] + 2 < best)
                best = last[j] + 2;
            if (now[j - 1] + 2 < best)
                best = now[j - 1] + 2;
            if (i > 1 && j > 1 && a.start[i - 1] == b.start[j - 2] &&
                a.start[i - 2] == b.start[j - 1] && before[j - 2] + 2 < best)
                best = before[j - 2] + 2;
            now[j] = best;
        }
    }
    return row[a.len % 3][b.len];
}

/* A flag for each sort of byte; capitals count as small letters. */
static uint32_t sorts_of(struct text t) {
    uint32_t sorts = 0;
    for (size_t i = 0; i < t.len; i++)
        sorts |= (uint32_t)1 << (lower(t.start[i]) & 31);
    return sorts;
}

static size_t bits_in(uint32_t flags) {
    size_t count = 0;
    for (; flags != 0; flags &= flags - 1)
        count++;
    return count;
}

/* Whether the distance is surely more: what one word is longer by, and each
 * sort of letter that only one of them has, costs an edit. Most pairs go no
 * further.
 */
static bool is_farther(struct text a, struct text b, size_t most) {
    size_t longer = a.len > b.len ? a.len - b.len : b.len - a.len;
    if (2 * longer > most)
        return true;
    uint32_t in_a = sorts_of(a), in_b = sorts_of(b);
    return 2 * bits_in(in_a & ~in_b) > most || 2 * bits_in(in_b & ~in_a) > most;
}

static bool is_same_but_case(struct text a, struct text b) {
    bool same = a.len == b.len;
    for (size_t i = 0; same && i < a.len; i++)
        same = lower(a.start[i]) == lower(b.start[i]);
    return same;
}

/* A word that was broken off: charact for characteristic. */
static bool is_beginning(struct text word, struct text of) {
    if (word.len < 4 || word.len >= of.len)
        return false;
    for (size_t i = 0; i < word.len; i++)
        if (word.start[i] != of.start[i])
            return false;
    return true;
}

void nearest_offer(struct nearest *n, struct text candidate) {
    struct text wanted = n->wanted;
    if (wanted.len == 0 || wanted.len > NEAREST_MAX || candidate.len == 0 ||
        candidate.len > NEAREST_MAX)
        return;
    size_t edits = wanted.len < 9 ? (wanted.len + 2) / 3 : 3;
    /* A letter for a letter is no likeness; a letter in another case is. */
    size_t most = wanted.len == 1 ? 1 : 2 * edits;
    size_t distance = is_farther(wanted, candidate, most)
                          ? most + 1
                          : edit_distance(wanted, candidate);
    if (distance > most && is_same_but_case(wanted, candidate))
        distance = 1;
    else if (distance > most && is_beginning(wanted, candidate))
        distance = most;
    if (distance > most || distance >= n->distance)
        return;
    n->best = candidate.start;
    n->best_len = candidate.len;
    n->distance = distance;
}

struct buf buf_in(struct arena *a) {
    return (struct buf){.arena = a};
}

void buf_add(struct buf *b, const char *s, size_t len) {
    if (b->len + len + 1 > b->room) {
        size_t room = b->room < 32 ? 32 : b->room * 2;
        while (room < b->len + len + 1)
            room *= 2;
        b->bytes = arena_grow(b->arena, b->bytes, b->room, room, 1);
        b->room = room;
    }
    if (len > 0)
        memcpy(b->bytes + b->len, s, len);
    b->len += len;
    b->bytes[b->len] = '\0';
}

void buf_puts(struct buf *b, const char *s) {
    buf_add(b, s, strlen(s));
}

void buf_text(struct buf *b, struct text t) {
    buf_add(b, t.start, t.len);
}

void buf_printf(struct buf *b, const char *format, ...) {
    va_list args;
    char most[256]; /* are shorter */
    va_start(args, format);
    int len = vsnprintf(most, sizeof most, format, args);
    va_end(args);
    if (len >= 0 && (size_t)len < sizeof most) {
        buf_add(b, most, (size_t)len);
        return;
    }
    va_start(args, format);
    buf_puts(b, arena_vprintf(b->arena, format, args));
    va_end(args);
}

struct text buf_as_text(const struct buf *b) {
    return (struct text){buf_cstr(b), b->len};
}

const char *buf_cstr(const struct buf *b) {
    return b->bytes == NULL ? "" : b->bytes;
}

const char *text_held(struct arena *a, const char *words) {
    struct buf b = buf_in(a);
    for (const char *c = words; *c != '\0'; c++) {
        bool hold = *c == ' ' && c > words && c[-1] != ',';
        buf_add(&b, hold ? "\xC2\xA0" : c, hold ? 2 : 1);
    }
    return buf_cstr(&b);
}

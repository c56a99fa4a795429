/* dump.c - the words of a dumped display list, line by line. */
#include "layout/dump.h"

#include "base/arena.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

bool dump_line(struct dump *r) {
    size_t left = r->text.len - r->next;
    const char *start = NULL, *end = NULL;
    if (left > 0) {
        start = r->text.start + r->next;
        end = memchr(start, '\n', left);
    }
    if (end == NULL) {
        r->cut_short = true;
        return false;
    }
    r->line = (struct text){start, (size_t)(end - start)};
    r->next += r->line.len + 1;
    r->line_count++;
    return true;
}

struct text dump_word(struct dump *r) {
    if (r->line.len > 0 && r->line.start[0] == ' ')
        r->line = text_part(r->line, 1, r->line.len);
    size_t len = 0;
    while (len < r->line.len && r->line.start[len] != ' ')
        len++;
    struct text w = text_part(r->line, 0, len);
    r->line = text_part(r->line, len, r->line.len);
    r->bad = r->bad || len == 0;
    return w;
}

bool dump_follows(struct dump *r, const char *wanted) {
    struct text line = r->line;
    bool bad = r->bad;
    if (text_is(dump_word(r), wanted))
        return true;
    r->line = line;
    r->bad = bad;
    return false;
}

void dump_expect(struct dump *r, const char *wanted) {
    if (!dump_follows(r, wanted))
        r->bad = true;
}

/* Digits, sign, point, exponent and no more: strtod() would take "nan", "inf",
 * "0x10" and blanks too. It stops at the end of the word, since a line ends. */
static bool is_decimal(struct text t) {
    for (size_t i = 0; i < t.len; i++) {
        char c = t.start[i];
        if ((c < '0' || c > '9') && c != '.' && c != '-' && c != '+' &&
            c != 'e')
            return false;
    }
    return t.len > 0;
}

double dump_number(struct dump *r) {
    struct text t = dump_word(r);
    if (is_decimal(t)) {
        char *end;
        double x = strtod(t.start, &end);
        if (end == t.start + t.len && isfinite(x))
            return x;
    }
    r->bad = true;
    return 0;
}

float dump_small_number(struct dump *r, struct text t) {
    if (is_decimal(t)) {
        char *end;
        float x = strtof(t.start, &end);
        if (end == t.start + t.len && isfinite(x))
            return x;
    }
    r->bad = true;
    return 0;
}

unsigned long dump_count(struct dump *r, struct text t, unsigned long most) {
    unsigned long n = 0;
    if (t.len == 0)
        r->bad = true;
    for (size_t i = 0; i < t.len; i++) {
        if (t.start[i] < '0' || t.start[i] > '9' || n > most / 10) {
            r->bad = true;
            return 0;
        }
        n = n * 10 + (unsigned long)(t.start[i] - '0');
    }
    if (n > most) {
        r->bad = true;
        return 0;
    }
    return n;
}

int dump_hex(char c) {
    const char *digits = "0123456789ABCDEF", *at = strchr(digits, c);
    return c == '\0' || at == NULL ? -1 : (int)(at - digits);
}

/* The byte behind a backslash at t.start[*i]; -1 when it is no escape. */
static int escaped(struct text t, size_t *i) {
    if (*i + 1 >= t.len)
        return -1;
    char c = t.start[++*i];
    if (c == '"' || c == '\\')
        return c;
    if (c != 'x' || *i + 2 >= t.len)
        return -1;
    int high = dump_hex(t.start[*i + 1]), low = dump_hex(t.start[*i + 2]);
    *i += 2;
    return high < 0 || low < 0 ? -1 : high * 16 + low;
}

struct text dump_string(struct dump *r) {
    if (dump_follows(r, "-"))
        return (struct text){0};
    struct text t = r->line;
    struct buf out = buf_in(r->arena);
    size_t i = 2;
    if (t.len < 3 || t.start[0] != ' ' || t.start[1] != '"') {
        r->bad = true;
        return (struct text){0};
    }
    for (; i < t.len && t.start[i] != '"'; i++) {
        int c = (unsigned char)t.start[i];
        if (c == '\\')
            c = escaped(t, &i);
        if (c < 0) {
            r->bad = true;
            return (struct text){0};
        }
        buf_add(&out, &(char){(char)c}, 1);
    }
    if (i >= t.len) {
        r->bad = true;
        return (struct text){0};
    }
    r->line = text_part(t, i + 1, t.len);
    return (struct text){buf_cstr(&out), out.len};
}

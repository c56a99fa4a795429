/* text.h - strings as a pointer and a length, mostly slices of a source. */
#ifndef TEXT_H
#define TEXT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

struct arena;

struct text {
    const char *start; /* not NUL-terminated; NULL means absent */
    size_t len;        /* bytes */
};

/* NULL gives the absent text. These are told inline: mostly the string is a
 * constant, and its length is known when the program is compiled. */
static inline struct text text_of(const char *s) {
    return (struct text){s, s == NULL ? 0 : strlen(s)};
}

static inline bool text_equal(struct text a, struct text b) {
    return a.len == b.len &&
           (a.len == 0 || memcmp(a.start, b.start, a.len) == 0);
}

static inline bool text_is(struct text t, const char *s) {
    return text_equal(t, text_of(s));
}

static inline bool text_starts(struct text t, const char *prefix) {
    size_t len = strlen(prefix);
    return t.len >= len && memcmp(t.start, prefix, len) == 0;
}

/* The same to a reader: a blank that holds a line together is a blank. */
bool text_reads_same(struct text a, struct text b);
uint64_t text_hash(struct text t);              /* FNV-1a, 64 bits */
int text_compare(struct text a, struct text b); /* bytewise, for qsort */
struct text text_trim(struct text t); /* without white space at either end */
struct text text_part(struct text t, size_t from, size_t to);
/* The part before the next separator, trimmed, and *rest behind it; false when
 * nothing is left. "a,,b" has three parts, "" one, the absent text none. */
bool text_next_part(struct text *rest, char separator, struct text *part);
const char *text_cstr(struct arena *a, struct text t); /* copy with NUL */
/* With blanks that hold, but for those behind a comma: "10 AWG" is not parted,
 * "mark 2, mark 3" at its comma only. */
const char *text_held(struct arena *a, const char *words);
/* Copy with each run of white space (line ends included) as one blank. */
struct text text_squeezed(struct arena *a, struct text t);

/* Decodes one code point and moves *at past it; 0xFFFD for a bad byte. */
uint32_t text_next(struct text t, size_t *at);
size_t text_encode(uint32_t code, char out[4]); /* bytes written */
size_t text_columns(struct text t);             /* code points */

/* The candidate nearest to the wanted word (edit distance at most a third of
 * its length, and 3, a change of case half an edit; or a word that it begins),
 * or NULL. Offer candidates one at a time. */
struct nearest {
    struct text wanted;
    const char *best;
    size_t best_len;
    size_t distance;
};
struct nearest nearest_to(struct text wanted);
void nearest_offer(struct nearest *n, struct text candidate);

/* A string that grows in an arena. */
struct buf {
    struct arena *arena;
    char *bytes; /* always NUL-terminated once something was added */
    size_t len, room;
};
struct buf buf_in(struct arena *a);
void buf_add(struct buf *b, const char *s, size_t len);
void buf_puts(struct buf *b, const char *s);
void buf_text(struct buf *b, struct text t);
void buf_printf(struct buf *b, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
struct text buf_as_text(const struct buf *b);
const char *buf_cstr(const struct buf *b); /* "" when nothing was added */

#endif

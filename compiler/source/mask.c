/* mask.c - {...} taken out of a source before Markdown reads it.
 *
 * A paragraph is read from left to right as Markdown will: a run of backticks
 * opens a code span if a run of the same length follows in the paragraph, a
 * backslash takes the meaning from the next sign, and what opens first wins. */
#include "source/mask.h"

#include "base/arena.h"
#include "base/diag.h"
#include "base/list.h"
#include "source/encoding.h"
#include "source/mark.h"
#include "stages.h"

#include <stdint.h>
#include <string.h>

#define OPEN "\xEE\x80\x80"  /* U+E000 */
#define CLOSE "\xEE\x80\x81" /* U+E001 */

struct ticks { /* a run of backticks in the paragraph */
    size_t at, len;
    size_t next; /* the next run of this length, or SIZE_MAX */
};

struct masker {
    struct compile *c;
    struct mask *mask;
    struct text src;
    struct buf out;
    size_t copied; /* bytes of src that are in out */
    struct ticks *ticks;
    size_t tick_count, tick_room;
    size_t *first; /* by length: the first run of it not yet passed */
    size_t first_room;
    size_t open; /* braces that print, and are not closed in the paragraph */
};

static size_t run_length(struct text t, size_t at, size_t end) {
    size_t i = at;
    while (i < end && t.start[i] == '`')
        i++;
    return i - at;
}

/* Finds the runs of backticks between two bytes, and links those of one length.
 * All of this is linear: a hostile text of backticks must not cost more. */
static void collect_ticks(struct masker *m, size_t from, size_t to) {
    size_t longest = 0;
    m->tick_count = 0;
    for (size_t i = from; i < to; i++) {
        size_t len = run_length(m->src, i, to);
        if (len == 0)
            continue;
        m->ticks = list_grown(m->c->arena, m->ticks, m->tick_count,
                              &m->tick_room, sizeof *m->ticks);
        m->ticks[m->tick_count++] = (struct ticks){i, len, SIZE_MAX};
        longest = len > longest ? len : longest;
        i += len - 1;
    }
    if (longest + 1 > m->first_room) {
        m->first_room = 2 * longest + 2;
        m->first = arena_alloc(m->c->arena, m->first_room, sizeof *m->first);
    }
    for (size_t i = 0; i <= longest && m->tick_count > 0; i++)
        m->first[i] = SIZE_MAX;
    for (size_t i = m->tick_count; i-- > 0;) {
        m->ticks[i].next = m->first[m->ticks[i].len];
        m->first[m->ticks[i].len] = i;
    }
}

/* The byte behind the code span that opens with `len` backticks before `at`; 0
 * when nothing closes it. */
static size_t code_end(struct masker *m, size_t len, size_t at) {
    if (len >= m->first_room || m->tick_count == 0)
        return 0;
    size_t i = m->first[len];
    while (i != SIZE_MAX && m->ticks[i].at < at)
        i = m->ticks[i].next;
    m->first[len] = i;
    return i == SIZE_MAX ? 0 : m->ticks[i].at + len;
}

static void put_masked(struct masker *m, size_t from, size_t to, bool brace) {
    struct mask *k = m->mask;
    buf_text(&m->out, text_part(m->src, m->copied, from));
    k->items =
        list_grown(m->c->arena, k->items, k->count, &k->room, sizeof *k->items);
    struct masked *item = &k->items[k->count];
    *item = (struct masked){
        .text = text_part(m->src, from, to), .at = m->out.len, .brace = brace};
    buf_printf(&m->out, OPEN "%zu" CLOSE, k->count);
    item->end = m->out.len;
    k->count++;
    m->copied = to;
}

/* A closing brace that closes no mark. Returns the byte to go on from. */
static size_t take_closing(struct masker *m, size_t at, size_t to) {
    if (at + 1 < to && m->src.start[at + 1] == '}') {
        put_masked(m, at, at + 2, true);
        m->open -= m->open > 0;
        return at + 2;
    }
    if (m->open == 0)
        mark_stray(m->c, (struct span){m->mask->src, at, at + 1});
    m->open -= m->open > 0;
    return at + 1;
}

/* A brace at `at`: masked, or reported. Returns the byte to go on from. */
static size_t take_brace(struct masker *m, size_t at, size_t to) {
    struct text t = text_part(m->src, 0, to);
    if (at + 1 < to && t.start[at + 1] == '{') {
        put_masked(m, at, at + 2, true);
        m->open++;
        return at + 2;
    }
    size_t end = mark_end(t, at);
    if (end == 0) {
        m->open++; /* its end on a later line is no second slip */
        diag_add(m->c->diags, DIAG_MARK_OPEN,
                 (struct span){m->mask->src, at, at + 1},
                 "close it with '}' on the same line; '{{' is a brace");
        return at + 1;
    }
    put_masked(m, at, end, false);
    return end;
}

static bool is_punctuation(char c) {
    return (c >= '!' && c <= '/') || (c >= ':' && c <= '@') ||
           (c >= '[' && c <= '`') || (c >= '{' && c <= '~');
}

/* `&#xE000;` would let a source write a placeholder itself. The number is read
 * as Markdown does: at most seven digits. */
static void check_reference(struct masker *m, size_t at, size_t to) {
    struct text t = text_part(m->src, at, to < at + 12 ? to : at + 12);
    if (t.len < 4 || t.start[1] != '#')
        return;
    bool hex = t.start[2] == 'x' || t.start[2] == 'X';
    uint32_t code = 0;
    size_t i = hex ? 3 : 2;
    for (; i < t.len && t.start[i] != ';'; i++) {
        char c = t.start[i];
        uint32_t digit =
            c >= '0' && c <= '9'          ? (uint32_t)(c - '0')
            : hex && c >= 'a' && c <= 'f' ? (uint32_t)(c - 'a' + 10)
            : hex && c >= 'A' && c <= 'F' ? (uint32_t)(c - 'A' + 10)
                                          : 99;
        if (digit == 99)
            return;
        code = code * (hex ? 16 : 10) + digit;
    }
    if (i == t.len || !encoding_is_private(code))
        return;
    diag_add(m->c->diags, DIAG_CHARACTER_REFUSED,
             (struct span){m->mask->src, at, at + i + 1}, "U+%04X: %s",
             (unsigned)code, encoding_refuses(code));
}

static void mask_between(struct masker *m, size_t from, size_t to) {
    collect_ticks(m, from, to);
    m->open = 0;
    for (size_t i = from; i < to;) {
        char c = m->src.start[i];
        if (c == '\\' && i + 1 < to && is_punctuation(m->src.start[i + 1])) {
            m->open += m->src.start[i + 1] == '{';
            i += 2;
        } else if (c == '`') {
            size_t len = run_length(m->src, i, to);
            size_t end = code_end(m, len, i + len);
            i = end > 0 ? end : i + len;
        } else if (c == '{') {
            i = take_brace(m, i, to);
        } else if (c == '}') {
            i = take_closing(m, i, to);
        } else {
            if (c == '&')
                check_reference(m, i, to);
            i++;
        }
    }
}

struct mask *mask_source(struct compile *c, const struct source *src,
                         const struct mask_lines *lines, size_t count) {
    struct mask *k = arena_alloc(c->arena, 1, sizeof *k);
    struct masker m = {
        .c = c, .mask = k, .src = src->text, .out = buf_in(c->arena)};
    k->src = src;
    size_t last = 0;
    for (size_t i = 0; i < count; i++) {
        size_t first = lines[i].first > last ? lines[i].first : last + 1;
        if (first > lines[i].last || lines[i].last > src->line_count)
            continue;
        last = lines[i].last;
        mask_between(&m, src->line_start[first - 1],
                     last < src->line_count ? src->line_start[last]
                                            : src->text.len);
    }
    buf_text(&m.out, text_part(m.src, m.copied, m.src.len));
    k->out = place_source(c->arena, src->path, buf_as_text(&m.out));
    return k;
}

struct masked *mask_item(const struct mask *m, struct text t, size_t *at) {
    const size_t sign = sizeof OPEN - 1;
    if (t.len - *at < sign || memcmp(t.start + *at, OPEN, sign) != 0)
        return NULL;
    size_t i = *at + sign, index = 0;
    for (; i < t.len && t.start[i] >= '0' && t.start[i] <= '9'; i++)
        index = index * 10 + (size_t)(t.start[i] - '0');
    if (t.len - i < sign || memcmp(t.start + i, CLOSE, sign) != 0 ||
        index >= m->count)
        return NULL;
    *at = i + sign;
    m->items[index].met = true;
    return &m->items[index];
}

size_t mask_to_source(const struct mask *m, size_t byte) {
    size_t low = 0, high = m->count; /* items before `low` start at or before */
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (m->items[middle].at <= byte)
            low = middle + 1;
        else
            high = middle;
    }
    if (low == 0)
        return byte;
    const struct masked *item = &m->items[low - 1];
    size_t start = (size_t)(item->text.start - m->src->text.start);
    if (byte < item->end)
        return start;
    return start + item->text.len + (byte - item->end);
}

struct text mask_undone(struct compile *c, const struct mask *m,
                        struct text t) {
    struct buf out = buf_in(c->arena);
    for (size_t i = 0; i < t.len;) {
        const struct masked *item = mask_item(m, t, &i);
        if (item != NULL)
            buf_text(&out, item->text);
        else
            buf_add(&out, t.start + i++, 1);
    }
    return buf_as_text(&out);
}

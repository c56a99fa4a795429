/* place.c - source files in memory and places in them. */
#include "base/place.h"

#include "base/arena.h"

#include <stdint.h>
#include <string.h>

/* In UTF-8 a character has one byte that does not go on with another. */
static size_t count_characters(struct text t, size_t from, size_t to) {
    size_t count = 0;
    for (size_t i = from; i < to; i++)
        count += ((unsigned char)t.start[i] & 0xC0) != 0x80;
    return count;
}

/* Not for a usual guide, whose messages are counted out when they are given. */
static void count_steps(struct arena *a, struct source *src) {
    if (src->text.len < PLACE_LONG)
        return;
    size_t steps = src->text.len / PLACE_STEP + 1;
    src->characters = arena_alloc(a, steps, sizeof *src->characters);
    for (size_t i = 1; i < steps; i++)
        src->characters[i] =
            src->characters[i - 1] +
            count_characters(src->text, (i - 1) * PLACE_STEP, i * PLACE_STEP);
}

static size_t characters_between(const struct source *src, size_t from,
                                 size_t to) {
    size_t first = from / PLACE_STEP, last = to / PLACE_STEP;
    if (src->characters == NULL || first == last)
        return count_characters(src->text, from, to);
    return src->characters[last] - src->characters[first] +
           count_characters(src->text, last * PLACE_STEP, to) -
           count_characters(src->text, first * PLACE_STEP, from);
}

struct source *place_source(struct arena *a, const char *path,
                            struct text text) {
    struct source *src = arena_alloc(a, 1, sizeof *src);
    src->path = path;
    src->text = text;
    size_t room = text.len / 24 + 16; /* a usual line is longer */
    src->line_start = arena_alloc(a, room, sizeof *src->line_start);
    src->line_count = 1;
    const char *end = text.start + text.len;
    for (const char *at = text.start; text.len > 0; at++) {
        at = memchr(at, '\n', (size_t)(end - at));
        if (at == NULL)
            break;
        if (src->line_count == room) {
            src->line_start = arena_grow(a, src->line_start, room, room * 2,
                                         sizeof *src->line_start);
            room *= 2;
        }
        src->line_start[src->line_count++] = (size_t)(at + 1 - text.start);
        if (at + 1 == end)
            break;
    }
    count_steps(a, src);
    return src;
}

static size_t line_index(const struct source *src, size_t byte) {
    size_t low = 0, high = src->line_count;
    while (high - low > 1) {
        size_t middle = low + (high - low) / 2;
        if (src->line_start[middle] <= byte)
            low = middle;
        else
            high = middle;
    }
    return low;
}

struct position place_position(const struct source *src, size_t byte) {
    if (byte > src->text.len)
        byte = src->text.len;
    size_t line = line_index(src, byte);
    return (struct position){
        line + 1, characters_between(src, src->line_start[line], byte) + 1};
}

struct text place_line(const struct source *src, size_t line) {
    if (line == 0 || line > src->line_count)
        return (struct text){NULL, 0};
    size_t start = src->line_start[line - 1];
    size_t end =
        line < src->line_count ? src->line_start[line] - 1 : src->text.len;
    if (end > start && src->text.start[end - 1] == '\r')
        end--;
    return text_part(src->text, start, end);
}

struct span place_of(const struct source *src, struct text slice) {
    uintptr_t from = (uintptr_t)src->text.start, at = (uintptr_t)slice.start;
    if (slice.start == NULL || at < from ||
        at + slice.len > from + src->text.len)
        return (struct span){src, 0, 0};
    size_t start = (size_t)(slice.start - src->text.start);
    return (struct span){src, start, start + slice.len};
}

struct text place_text(struct span at) {
    if (at.src == NULL)
        return (struct text){NULL, 0};
    return text_part(at.src->text, at.start, at.end);
}

/* arena.c - memory of one guide: blocks that grow, freed whole.
 *
 * Under the address sanitizer each piece is a block of its own: a pointer that
 * only moves on would hide overruns between neighbours. */
#include "base/arena.h"

#include <stdarg.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#if defined __has_feature
#if __has_feature(address_sanitizer)
#define OWN_BLOCKS true
#endif
#endif
#if defined __SANITIZE_ADDRESS__
#define OWN_BLOCKS true
#elif !defined OWN_BLOCKS
#define OWN_BLOCKS false
#endif

enum { FIRST = 1024, MOST = 64 * 1024, ALIGN = _Alignof(max_align_t) };

struct block {
    struct block *next;
    size_t used, room; /* bytes; a multiple of ALIGN is used */
    max_align_t bytes[];
};

struct arena {
    struct block *blocks; /* the first one has room left */
};

_Noreturn void arena_exhausted(void) {
    fputs("bayleaf: out of memory\n", stderr);
    exit(3);
}

struct arena *arena_new(void) {
    struct arena *a = calloc(1, sizeof *a);
    if (a == NULL)
        arena_exhausted();
    return a;
}

void arena_free(struct arena *a) {
    if (a == NULL)
        return;
    for (struct block *b = a->blocks; b != NULL;) {
        struct block *next = b->next;
        free(b);
        b = next;
    }
    free(a);
}

static struct block *new_block(size_t room) {
    struct block *b = calloc(1, sizeof *b + room);
    if (b == NULL)
        arena_exhausted();
    b->room = room;
    return b;
}

/* What is large gets a block of its own behind the first, which goes on. */
static void *own_block(struct arena *a, size_t size) {
    struct block *b = new_block(size), **at = &a->blocks;
    if (*at != NULL)
        at = &(*at)->next;
    b->next = *at;
    *at = b;
    b->used = size;
    return b->bytes;
}

static size_t bytes_of(size_t count, size_t size) {
    if (size != 0 && count > (SIZE_MAX - sizeof(struct block) - ALIGN) / size)
        arena_exhausted();
    return size * count;
}

static size_t aligned(size_t size) {
    return (size + ALIGN - 1) / ALIGN * ALIGN;
}

void *arena_alloc(struct arena *a, size_t count, size_t size) {
    size = bytes_of(count, size);
    if (OWN_BLOCKS || size >= MOST / 4)
        return own_block(a, size);
    size = aligned(size);
    struct block *b = a->blocks;
    if (b == NULL || b->room - b->used < size) {
        size_t room = b == NULL ? FIRST : b->room < MOST ? 2 * b->room : MOST;
        while (room < size)
            room *= 2;
        b = new_block(room);
        b->next = a->blocks;
        a->blocks = b;
    }
    void *piece = (char *)b->bytes + b->used;
    b->used += size;
    return piece;
}

/* The array is the last piece of the first block, which has room for more. */
static void *grown_in_place(struct arena *a, const void *old, size_t old_size,
                            size_t new_size) {
    struct block *b = a->blocks;
    if (OWN_BLOCKS || b == NULL || old_size == 0 || b->used < old_size)
        return NULL;
    char *piece = (char *)b->bytes + b->used - old_size;
    if (piece != old || b->room - b->used < new_size - old_size)
        return NULL;
    b->used += new_size - old_size;
    return piece;
}

void *arena_grow(struct arena *a, const void *old, size_t old_count,
                 size_t new_count, size_t size) {
    size_t old_size = aligned(bytes_of(old_count, size));
    size_t new_size = aligned(bytes_of(new_count, size));
    void *grown = grown_in_place(a, old, old_size, new_size);
    if (grown != NULL)
        return grown;
    grown = arena_alloc(a, new_count, size);
    if (old_count > 0)
        memcpy(grown, old, old_count * size);
    return grown;
}

void *arena_same(struct arena *a, const void *items, size_t count,
                 size_t size) {
    void *same = arena_alloc(a, count, size);
    if (count > 0)
        memcpy(same, items, count * size);
    return same;
}

char *arena_copy(struct arena *a, const char *s, size_t len) {
    if (len == SIZE_MAX)
        arena_exhausted();
    char *copy = arena_alloc(a, len + 1, 1);
    if (len > 0)
        memcpy(copy, s, len);
    return copy;
}

char *arena_vprintf(struct arena *a, const char *format, va_list args) {
    char most[256]; /* are shorter */
    va_list again;
    va_copy(again, args);
    int len = vsnprintf(most, sizeof most, format, again);
    va_end(again);
    if (len < 0)
        arena_exhausted();
    if ((size_t)len < sizeof most)
        return arena_copy(a, most, (size_t)len);
    char *out = arena_alloc(a, (size_t)len + 1, 1);
    vsnprintf(out, (size_t)len + 1, format, args);
    return out;
}

char *arena_printf(struct arena *a, const char *format, ...) {
    va_list args;
    va_start(args, format);
    char *out = arena_vprintf(a, format, args);
    va_end(args);
    return out;
}

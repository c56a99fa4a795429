/* arena.c - memory of one guide: a chain of callocs, freed whole.
 *
 * Each piece is its own calloc, not a slice of a block: a bump pointer would
 * hide overruns between neighbours from the address sanitizer. */
#include "base/arena.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct piece {
    struct piece *next;
    max_align_t bytes[];
};

struct arena {
    struct piece *pieces;
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
    for (struct piece *p = a->pieces; p != NULL;) {
        struct piece *next = p->next;
        free(p);
        p = next;
    }
    free(a);
}

void *arena_alloc(struct arena *a, size_t count, size_t size) {
    if (size != 0 && count > (SIZE_MAX - sizeof(struct piece)) / size)
        arena_exhausted();
    struct piece *p = calloc(1, sizeof *p + count * size);
    if (p == NULL)
        arena_exhausted();
    p->next = a->pieces;
    a->pieces = p;
    return p->bytes;
}

void *arena_grow(struct arena *a, const void *old, size_t old_count,
                 size_t new_count, size_t size) {
    void *grown = arena_alloc(a, new_count, size);
    if (old_count > 0)
        memcpy(grown, old, old_count * size);
    return grown;
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
    va_list again;
    va_copy(again, args);
    int len = vsnprintf(NULL, 0, format, again);
    va_end(again);
    if (len < 0)
        arena_exhausted();
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

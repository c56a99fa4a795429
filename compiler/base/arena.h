/* arena.h - memory of one guide: allocated piece by piece, freed whole. */
#ifndef ARENA_H
#define ARENA_H

#include <stdarg.h>
#include <stddef.h>

struct arena;

struct arena *arena_new(void);
void arena_free(struct arena *a);

/* count * size zeroed bytes. Never NULL: the program ends with status 3 when
 * memory is gone or the product overflows. */
void *arena_alloc(struct arena *a, size_t count, size_t size);

/* An array of old_count items made larger, zero-padded: in its place where
 * nothing was allocated since, else as a copy. The old one stays readable until
 * the arena is freed. old_count is what it has room for: call it when it is
 * full. */
void *arena_grow(struct arena *a, const void *old, size_t old_count,
                 size_t new_count, size_t size);
/* A copy of count items; never NULL. */
void *arena_same(struct arena *a, const void *items, size_t count, size_t size);

/* Copies with a NUL behind. */
char *arena_copy(struct arena *a, const char *s, size_t len);
char *arena_printf(struct arena *a, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
char *arena_vprintf(struct arena *a, const char *format, va_list args)
    __attribute__((format(printf, 2, 0)));

/* Ends the program with status 3 and a message: for main and arena only. */
_Noreturn void arena_exhausted(void);

#endif

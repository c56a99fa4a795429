#define _DEFAULT_SOURCE /* madvise() */
/* heap.c - what the C library's heap asks of the system. */
#include "base/heap.h"

#include <stdint.h>
#include <stdlib.h>

#ifdef __GLIBC__
#include <malloc.h>
#include <sys/mman.h>

enum { MIB = 1 << 20, LARGE_PAGE = 2 * MIB, AT_ONCE = 16 * MIB };

void heap_keep(void) {
    mallopt(M_TRIM_THRESHOLD, 64 * MIB);
    mallopt(M_MMAP_THRESHOLD, 4 * MIB);
    mallopt(M_TOP_PAD, AT_ONCE);
}

/* A piece that the heap has no room for makes it grow; what it grew by lies
 * behind it, and nobody has touched it yet: a large page is given only where
 * not even one of its small ones is there. What lies before the first large
 * page is left out, by a piece that nobody touches either. */
void *heap_large_pages(size_t room) {
    enum { PIECE = MIB / 4, HEAD = 64 };
    void *piece = malloc(PIECE);
    uintptr_t at = (uintptr_t)piece;
    uintptr_t from = (at + PIECE + LARGE_PAGE - 1) & -(uintptr_t)LARGE_PAGE;
    size_t len = room < AT_ONCE - LARGE_PAGE ? room : AT_ONCE - LARGE_PAGE;
    free(piece);
    if (piece == NULL || madvise((void *)from, len, MADV_HUGEPAGE) != 0)
        return NULL;
    return malloc(from - at - HEAD);
}
#else
void heap_keep(void) {
}
void *heap_large_pages(size_t room) {
    (void)room;
    return NULL;
}
#endif

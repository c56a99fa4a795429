#define _DEFAULT_SOURCE /* sbrk(), madvise() */
/* main.c - the program; its commands stand in command/. */
#include "command/command.h"

#include <signal.h>
#include <stdlib.h>

#ifdef __GLIBC__
#include <malloc.h>
#include <stdint.h>
#include <sys/mman.h>
#include <unistd.h>

enum { LARGE_PAGE = 2 << 20, ROOM = 16 << 20 };

/* One guide touches a thousand pages and more; in large ones, where the system
 * has them, that takes a thirteenth less of its time. Only what is touched is
 * taken. */
static void take_large_pages(void) {
    void *first = malloc(LARGE_PAGE); /* has the heap grow by ROOM */
    uintptr_t from =
        ((uintptr_t)first + LARGE_PAGE - 1) & -(uintptr_t)LARGE_PAGE;
    uintptr_t end = (uintptr_t)sbrk(0);
    if (first != NULL && from < end && end - from <= LARGE_PAGE + ROOM)
        madvise((void *)from, end - from, MADV_HUGEPAGE);
    free(first);
}

/* What one guide gave back is the next one's: asking the system for it again
 * takes a tenth of a run over many. */
static void keep_memory(void) {
    mallopt(M_TRIM_THRESHOLD, 64 << 20);
    mallopt(M_MMAP_THRESHOLD, 4 << 20);
    mallopt(M_TOP_PAD, ROOM);
    take_large_pages();
}
#else
static void keep_memory(void) {
}
#endif

int main(int argc, char **argv) {
    keep_memory();
    /* A file-size limit shows as an error of write(), not as a signal. */
    struct sigaction ignore = {.sa_handler = SIG_IGN};
    sigaction(SIGXFSZ, &ignore, NULL);
    return command_main(argc, argv);
}

/* heap.h - what the C library's heap asks of the system. */
#ifndef HEAP_H
#define HEAP_H

#include <stddef.h>

/* What one guide gives back is the next one's: asking the system for it again
 * takes a tenth of a run over many. Once, before there are threads. */
void heap_keep(void);
/* The next `room` bytes of the calling thread come in large pages where the
 * system has them: a page at a time takes a tenth of a cold build. Only what is
 * touched is taken. The caller frees what it returns when it is done. */
void *heap_large_pages(size_t room);

#endif

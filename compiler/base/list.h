/* list.h - arrays that grow in an arena, one item at a time. */
#ifndef LIST_H
#define LIST_H

#include <stddef.h>

struct arena;

/* The array with room for one more item: itself, or a larger copy. */
void *list_grown(struct arena *a, void *items, size_t count, size_t *room,
                 size_t size);

#endif

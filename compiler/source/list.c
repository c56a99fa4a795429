/* list.c - arrays that grow in an arena, one item at a time. */
#include "source/list.h"

#include "base/arena.h"

void *list_grown(struct arena *a, void *items, size_t count, size_t *room,
                 size_t size) {
    if (count < *room)
        return items;
    *room = *room == 0 ? 8 : *room * 2;
    return arena_grow(a, items, count, *room, size);
}

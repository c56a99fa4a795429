/* list.c - arrays that grow in an arena, one item at a time. */
#include "base/list.h"

#include "base/arena.h"

void *list_grown(struct arena *a, void *items, size_t count, size_t *room,
                 size_t size) {
    if (count < *room)
        return items;
    size_t more = *room == 0 ? 1 : *room * 2; /* most lists have one item */
    items = arena_grow(a, items, *room, more, size);
    *room = more;
    return items;
}

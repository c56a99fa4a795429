/* rich.c - text in mixed faces and sizes, before it is broken into lines. */
#include "layout/rich.h"

#include "base/arena.h"

#include <string.h>

struct chunk *rich_add(struct arena *a, struct rich *r, struct tone tone,
                       struct text text, struct span at) {
    if (r->count == r->room) {
        size_t room = r->room == 0 ? 1 : r->room * 2;
        r->chunk = arena_grow(a, r->chunk, r->count, room, sizeof *r->chunk);
        r->room = room;
    }
    struct chunk *k = &r->chunk[r->count++];
    *k = (struct chunk){.tone = tone, .text = text, .at = at};
    return k;
}

void rich_line_end(struct arena *a, struct rich *r) {
    struct tone tone = {FACE_REGULAR, 0, {0, 0, 0}};
    if (r->count > 0)
        tone = r->chunk[r->count - 1].tone;
    rich_add(a, r, tone, (struct text){NULL, 0}, (struct span){NULL, 0, 0})
        ->line_end = true;
}

bool rich_empty(const struct rich *r) {
    for (size_t i = 0; i < r->count; i++) {
        struct text t = r->chunk[i].text;
        for (size_t at = 0; at < t.len; at++) {
            struct text rest = text_part(t, at, t.len);
            if (text_starts(rest, "\xC2\xA0"))
                at++;
            else if (text_starts(rest, "\xE2\x80\x8B"))
                at += 2;
            else if (strchr(" \n\t\r", t.start[at]) == NULL)
                return false;
        }
    }
    return true;
}

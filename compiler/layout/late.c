/* late.c - a page number in text that is set before its page is known. */
#include "layout/late.h"

#include "base/arena.h"
#include "layout/shape.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

const char *late_noughts(size_t figures) {
    static const char noughts[] = "000000000";
    assert(figures <= LATE_FIGURES);
    return noughts + (LATE_FIGURES - figures);
}

void late_add(struct arena *a, struct late *l, struct late_place place) {
    if (l->count == l->room) {
        size_t room = l->room == 0 ? 1 : l->room * 2;
        l->place = arena_grow(a, l->place, l->count, room, sizeof *l->place);
        l->room = room;
    }
    l->place[l->count++] = place;
}

size_t late_needs(const struct late *l) {
    size_t figures = 0;
    for (int page = l->to->page + 1; page > 0; page /= 10)
        figures++;
    return figures;
}

void late_write(struct shaper *s, const struct late *l) {
    char text[32];
    assert(late_needs(l) <= l->figures);
    snprintf(text, sizeof text, "%*d", (int)l->figures, l->to->page + 1);
    for (size_t i = 0; i < l->count; i++) {
        const struct late_place *p = &l->place[i];
        memcpy(p->text, text, l->figures);
        for (size_t k = 0; k < l->figures; k++)
            p->glyph[k].id = shape_word(s, p->face, (struct text){text + k, 1})
                                 ->glyphs[0]
                                 .id;
    }
}

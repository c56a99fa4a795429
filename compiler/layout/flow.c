/* flow.c - slabs under each other. */
#include "layout/flow.h"

#include "base/arena.h"

#include <math.h>

void flow_space(struct flow *f, double space) {
    if (space > f->space)
        f->space = space;
}

void flow_bond(struct flow *f, enum bond bond) {
    if (bond > f->bond)
        f->bond = bond;
}

void flow_add(struct flow *f, struct slab *s) {
    if (f->count == f->room) {
        size_t room = f->room == 0 ? 64 : f->room * 2;
        f->slab =
            arena_grow(f->c->arena, f->slab, f->count, room, sizeof *f->slab);
        f->room = room;
    }
    s->space = f->space;
    s->bond = f->bond == BOND_NONE ? BOND_LIGHT : f->bond;
    s->fresh = f->fresh;
    s->passage = f->passage;
    f->space = 0;
    f->bond = BOND_NONE;
    f->fresh = false;
    f->slab[f->count++] = s;
}

struct slab *flow_slab(struct flow *f, double height, struct span at) {
    struct slab *s = slab_new(f->c, height, at);
    flow_add(f, s);
    return s;
}

struct slab *flow_lines(struct flow *f, const struct lines *l, double x,
                        struct span at) {
    struct slab *first = NULL;
    size_t outer = tag_open_text(f->c->tags);
    for (size_t i = 0; i < l->count; i++) {
        bool lonely = i == 1 || i + 1 == l->count;
        if (i > 0)
            flow_bond(f, lonely ? BOND_FAST : BOND_WEAK);
        struct slab *s = flow_slab(f, l->type.leading, at);
        paragraph_draw(f->c, s, l, i, x, paragraph_baseline(l->type));
        if (i == 0)
            first = s;
    }
    tag_close(f->c->tags, outer);
    return first;
}

struct slab *flow_paragraph(struct flow *f, const struct rich *r, double x,
                            double width, struct type type, struct span at) {
    const struct words *w = words_of(f->c, r);
    return flow_lines(f, paragraph_break(f->c, w, width, type, 1), x, at);
}

double flow_continued(const struct flow *f, struct slab *s, double x,
                      struct text name) {
    struct type note = f->c->style->note;
    const char *text = name.len == 0
                           ? "continued"
                           : arena_printf(f->c->arena, "%.*s, continued",
                                          (int)name.len, name.start);
    slab_text(f->c, s, x, paragraph_baseline(note), FACE_OBLIQUE, note.size,
              style_black(), text_of(text));
    return note.leading;
}

double flow_below(const struct style *style, double used,
                  const struct slab *s) {
    double grid = style->grid;
    if (s->space == 0 || grid == 0)
        return used + s->space;
    double at = round((used + s->space) / grid) * grid;
    return at < used + s->space / 2 ? at + grid : at;
}

double flow_height(const struct flow *f, size_t from) {
    double height = 0;
    for (size_t i = from; i < f->count; i++)
        height = (i == from ? 0 : flow_below(f->c->style, height, f->slab[i])) +
                 f->slab[i]->height;
    return height;
}

enum { HEADING_ROOM = 60 }; /* a heading may have to stand above the group */

void flow_together(struct flow *f, size_t from, enum bond bond) {
    const struct style *style = f->c->style;
    if (flow_height(f, from) > style->bottom - style->top - HEADING_ROOM)
        return;
    for (size_t i = from + 1; i < f->count; i++)
        if (f->slab[i]->bond < bond)
            f->slab[i]->bond = bond;
}

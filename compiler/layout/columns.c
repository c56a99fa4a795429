/* columns.c - short paragraphs in two columns. */
#include "layout/columns.h"

#include "base/arena.h"
#include "layout/pair.h"

/* Between the columns; between paragraphs. */
static const double between = 18, space = 2;

/* A list up to this height, in one column, is parted by a page only where that
 * would else stay half empty; of a longer one no fewer lines than these stand
 * alone. */
static const double short_height = 180;
enum { FEWEST_LINES = 6 };

struct rich *columns_add(struct arena *a, struct columns *p) {
    if (p->count == p->room) {
        size_t room = p->room == 0 ? 8 : p->room * 2;
        p->list = arena_grow(a, p->list, p->count, room, sizeof *p->list);
        p->room = room;
    }
    p->list[p->count] = (struct rich){0};
    return &p->list[p->count++];
}

static void bind(struct flow *f, size_t from, size_t to) {
    for (size_t i = from; i < to; i++)
        if (f->slab[i]->bond < BOND_FIRM)
            f->slab[i]->bond = BOND_FIRM;
}

void columns_set(struct flow *f, const struct columns *p, double x,
                 double width, struct type type, struct span at) {
    double column = (width - between) / 2;
    size_t from = f->count;
    for (size_t i = 0; i < p->count; i++) {
        flow_paragraph(f, &p->list[i], x, column, type, at);
        flow_space(f, space);
    }
    size_t lines = f->count - from;
    if (lines == 0)
        return;
    f->space = 0;
    if (lines <= 2 * FEWEST_LINES || flow_height(f, from) <= short_height) {
        bind(f, from + 1, f->count);
    } else {
        bind(f, from + 1, from + FEWEST_LINES);
        bind(f, f->count - FEWEST_LINES + 1, f->count);
    }
    pair_add(f, from, column + between);
}

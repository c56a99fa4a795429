/* columns.c - short paragraphs in two columns. */
#include "layout/columns.h"

#include "base/arena.h"

#include <math.h>

/* Between the columns; between paragraphs; the most that both columns of a
 * piece take together. */
static const double between = 18, space = 2, piece_height = 900;

/* All lines of the list, one after the other. */
struct strip {
    const struct lines **of; /* [count] whose line it is */
    size_t *index;
    size_t count;
};

static struct strip gather(const struct composer *c, const struct columns *p,
                           double width, struct type type) {
    size_t count = p->count;
    struct lines **lines = arena_alloc(c->arena, count + 1, sizeof(*lines));
    struct strip s = {0};
    size_t total = 0;
    for (size_t i = 0; i < count; i++) {
        lines[i] = paragraph_break(c, words_of(c, &p->list[i]), width, type, 1);
        total += lines[i]->count;
    }
    s.of = arena_alloc(c->arena, total + 1, sizeof(*s.of));
    s.index = arena_alloc(c->arena, total + 1, sizeof *s.index);
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < lines[i]->count; k++) {
            s.of[s.count] = lines[i];
            s.index[s.count++] = k;
        }
    return s;
}

static double space_above(const struct strip *s, size_t i, size_t from) {
    return i > from && s->index[i] == 0 ? space : 0;
}

static double height_of(const struct strip *s, size_t from, size_t to) {
    double height = 0;
    for (size_t i = from; i < to; i++)
        height += s->of[i]->type.leading + space_above(s, i, from);
    return height;
}

/* No line of a paragraph of several stands alone in its column. */
static bool may_part(const struct strip *s, size_t at) {
    return at >= s->count || s->index[at] == 0 ||
           (s->index[at] > 1 && s->index[at] + 1 < s->of[at]->count);
}

/* Where the right column begins, so that the higher one is least high. */
static size_t balance(const struct strip *s, size_t from, size_t to) {
    size_t best = to;
    double least = height_of(s, from, to);
    for (size_t at = from + 1; at < to; at++) {
        double high = fmax(height_of(s, from, at), height_of(s, at, to));
        if (may_part(s, at) && high < least - 0.01) {
            least = high;
            best = at;
        }
    }
    return best;
}

static double draw_column(const struct composer *c, struct slab *slab,
                          const struct strip *s, size_t from, size_t to,
                          double x) {
    double y = 0;
    for (size_t i = from; i < to; i++) {
        struct type type = s->of[i]->type;
        y += space_above(s, i, from);
        paragraph_draw(c, slab, s->of[i], s->index[i], x,
                       y + paragraph_baseline(type));
        y += type.leading;
    }
    return y;
}

/* The lines that make one piece: what is left is parted evenly. */
static size_t piece_end(const struct strip *s, size_t from) {
    size_t end = from + 1, good = s->count;
    double left = height_of(s, from, s->count);
    double share = left / ceil(left / piece_height);
    while (end < s->count && height_of(s, from, end) < share) {
        end++;
        if (may_part(s, end))
            good = end;
    }
    return end < s->count ? good : s->count;
}

struct rich *columns_add(struct arena *a, struct columns *p) {
    if (p->count == p->room) {
        size_t room = p->room == 0 ? 8 : p->room * 2;
        p->list = arena_grow(a, p->list, p->count, room, sizeof *p->list);
        p->room = room;
    }
    p->list[p->count] = (struct rich){0};
    return &p->list[p->count++];
}

void columns_set(struct flow *f, const struct columns *p, double x,
                 double width, struct type type, struct span at) {
    double column = (width - between) / 2;
    struct strip s = gather(f->c, p, column, type);
    for (size_t from = 0, to; from < s.count; from = to) {
        to = piece_end(&s, from);
        size_t right = balance(&s, from, to);
        if (from > 0) {
            flow_bond(f, BOND_WEAK);
            flow_space(f, s.index[from] == 0 ? space : 0);
        }
        struct slab *slab = flow_slab(f, 0, at);
        double left_high = draw_column(f->c, slab, &s, from, right, x);
        double right_high =
            draw_column(f->c, slab, &s, right, to, x + column + between);
        slab->height = fmax(left_high, right_high);
    }
}

/* pair.c - slabs in two columns. */
#include "layout/pair.h"

#include "base/arena.h"
#include "base/list.h"

#include <math.h>

/* A column that begins inside a paragraph is worth avoiding at the cost of
 * this much height. */
static const double torn = 12;

void pair_add(struct flow *f, size_t from, double shift) {
    struct arena *a = f->c->arena;
    if (f->count == from)
        return;
    f->pair =
        list_grown(a, f->pair, f->pair_count, &f->pair_room, sizeof *f->pair);
    struct pair p = {from, f->count, shift,
                     arena_alloc(a, f->count - from, sizeof *p.end)};
    double end = 0;
    for (size_t i = from; i < f->count; i++) {
        end += (i > from ? f->slab[i]->space : 0) + f->slab[i]->height;
        p.end[i - from] = end;
    }
    f->pair[f->pair_count++] = p;
}

const struct pair *pair_at(const struct flow *f, size_t i) {
    for (size_t k = 0; k < f->pair_count; k++)
        if (i >= f->pair[k].from && i < f->pair[k].to)
            return &f->pair[k];
    return NULL;
}

/* Of slabs from..to-1 in one column. */
static double column_height(const struct flow *f, const struct pair *p,
                            size_t from, size_t to) {
    if (from == to)
        return 0;
    return p->end[to - 1 - p->from] - p->end[from - p->from] +
           f->slab[from]->height;
}

static bool may_part(const struct flow *f, size_t at) {
    return f->slab[at]->bond != BOND_FAST;
}

/* The first slab, from `at` on, that makes the left column the higher one. */
static size_t crossing(const struct flow *f, const struct pair *p, size_t from,
                       size_t to, size_t at) {
    while (at < to &&
           column_height(f, p, from, at) < column_height(f, p, at, to))
        at++;
    return at;
}

/* `middle`: where the columns cross. */
static struct pair_parted part_near(const struct flow *f, const struct pair *p,
                                    size_t from, size_t to, size_t middle) {
    struct pair_parted best = {to, column_height(f, p, from, to)};
    double least = best.height; /* with what a torn paragraph costs */
    for (size_t at = middle; at-- > from + 1;) {
        double height = column_height(f, p, at, to);
        double cost = height + (f->slab[at]->space > 0 ? 0 : torn);
        if (height >= least)
            break;
        if (may_part(f, at) && cost < least) {
            least = cost;
            best = (struct pair_parted){at, height};
        }
    }
    for (size_t at = middle; at < to; at++) {
        double height = column_height(f, p, from, at);
        double cost = height + (f->slab[at]->space > 0 ? 0 : torn);
        if (height >= least)
            break;
        if (at > from && may_part(f, at) && cost < least) {
            least = cost;
            best = (struct pair_parted){at, height};
        }
    }
    return best;
}

struct pair_parted pair_part(const struct flow *f, const struct pair *p,
                             size_t from, size_t to) {
    return part_near(f, p, from, to, crossing(f, p, from, to, from));
}

/* With each slab more the columns cross where they did, or further on. */
static void go_on(struct pile *p, size_t i) {
    p->middle = crossing(p->f, p->pair, p->first, i + 1, p->middle);
    p->used =
        p->top + part_near(p->f, p->pair, p->first, i + 1, p->middle).height;
}

struct pile pile_begin(const struct flow *f, size_t i, double share) {
    const struct slab *s = f->slab[i];
    double top = s->again == NULL ? 0 : s->again->height;
    return (struct pile){.f = f,
                         .share = share,
                         .used = top + s->height,
                         .pair = pair_at(f, i),
                         .first = i,
                         .middle = i,
                         .top = top};
}

double pile_add(struct pile *p, size_t i) {
    const struct slab *s = p->f->slab[i];
    const struct pair *in = pair_at(p->f, i);
    if (in != NULL && in == p->pair) {
        go_on(p, i);
        return p->top;
    }
    p->pair = in;
    p->first = p->middle = i;
    p->top = flow_below(p->f->c->style, p->used, s);
    if (p->share < 1)
        p->top = fmin(p->top, p->used + p->share * s->space);
    p->used = p->top + s->height;
    return p->top;
}

/* pair.c - slabs in two columns. */
#include "layout/pair.h"

#include "base/arena.h"
#include "base/list.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

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

/* The first slab behind `i` that stands in another pair, or in one at all. */
static size_t next_pair(const struct flow *f, size_t i) {
    size_t next = SIZE_MAX;
    for (size_t k = 0; k < f->pair_count; k++)
        if (f->pair[k].from > i && f->pair[k].from < next)
            next = f->pair[k].from;
    return next;
}

static void enter(struct pile *p, size_t i) {
    p->pair = pair_at(p->f, i);
    p->until = p->pair != NULL ? p->pair->to : next_pair(p->f, i);
    p->first = p->middle = i;
}

/* With each slab more the columns cross where they did, or further on. */
static void go_on(struct pile *p, size_t i) {
    p->middle = crossing(p->f, p->pair, p->first, i + 1, p->middle);
    double height = part_near(p->f, p->pair, p->first, i + 1, p->middle).height;
    for (int k = 0; k < p->shares; k++)
        p->used[k] = p->top[k] + height;
}

struct pile pile_begin(const struct flow *f, size_t i, double share) {
    const struct slab *s = f->slab[i];
    double top = s->again == NULL ? 0 : s->again->height;
    struct pile p = {.f = f,
                     .shares = 1,
                     .share = {share, share},
                     .used = {top + s->height, top + s->height},
                     .top = {top, top}};
    enter(&p, i);
    return p;
}

void pile_beside(struct pile *p, double share) {
    p->share[p->shares++] = share;
}

struct pile pile_resume(const struct pile *begun, size_t i,
                        const double used[2]) {
    struct pile p = *begun;
    memcpy(p.used, used, sizeof p.used);
    enter(&p, i);
    return p;
}

double pile_add(struct pile *p, size_t i) {
    const struct slab *s = p->f->slab[i];
    if (i >= p->until)
        enter(p, i);
    else if (p->pair != NULL) {
        go_on(p, i);
        return p->top[0];
    }
    for (int k = 0; k < p->shares; k++) {
        double used = p->used[k];
        p->top[k] = flow_below(p->f->c->style, used, s);
        if (p->share[k] < 1)
            p->top[k] = fmin(p->top[k], used + p->share[k] * s->space);
        p->used[k] = p->top[k] + s->height;
    }
    return p->top[0];
}

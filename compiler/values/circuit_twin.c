/* circuit_twin.c - variants in which a circuit is the same: most differ in the
 * length of a wire or two, and some in nothing that this circuit holds. */
#include "values/circuit_twin.h"

#include <string.h>

enum { PAIRS_MAX = 400, FIGURE_DEPTH = 16 };

/* Roots that stand for each other. */
struct pairs {
    const struct quantity *a[PAIRS_MAX], *b[PAIRS_MAX];
    size_t count;
};

static bool same_root(struct pairs *p, const struct quantity *a,
                      const struct quantity *b) {
    for (size_t i = 0; i < p->count; i++)
        if (p->a[i] == a || p->b[i] == b)
            return p->a[i] == a && p->b[i] == b;
    if (p->count == PAIRS_MAX || a->range.low != b->range.low ||
        a->range.high != b->range.high)
        return false;
    p->a[p->count] = a;
    p->b[p->count++] = b;
    return true;
}

static bool same_figure(struct pairs *p, const struct quantity *a,
                        const struct quantity *b, int depth) {
    if (a == NULL || b == NULL)
        return a == b;
    if (a->nominal != b->nominal ||
        quantity_is_exact(a) != quantity_is_exact(b))
        return false;
    if (quantity_is_exact(a))
        return true;
    if (a->op != b->op || a->arg_count != b->arg_count ||
        a->numerator != b->numerator || a->denominator != b->denominator ||
        a->calculation != b->calculation || a->fixed != b->fixed)
        return false;
    if (a->op == QUANTITY_ROOT)
        return same_root(p, a, b);
    for (size_t i = 0; i < a->arg_count; i++)
        if (depth == FIGURE_DEPTH ||
            !same_figure(p, a->arg[i], b->arg[i], depth + 1))
            return false;
    return true;
}

/* What the law of a wire is made of besides its figures. */
static bool same_run(const struct wire_run *a, const struct wire_run *b) {
    if (a == NULL || b == NULL)
        return a == b;
    const struct ampacity *p = &a->ampacity, *q = &b->ampacity;
    return p->rated == q->rated && p->reference == q->reference &&
           p->amp == q->amp && p->bundle == q->bundle &&
           p->use.material == q->use.material && p->use.size == q->use.size;
}

static bool same_piece(struct pairs *p, const struct circuit_piece *a,
                       const struct circuit_piece *b) {
    if (a->law != b->law || a->figure_count != b->figure_count ||
        !same_run(a->run, b->run) ||
        !same_figure(p, a->starting, b->starting, 0) ||
        !same_figure(p, a->at, b->at, 0))
        return false;
    for (size_t k = 0; k < a->figure_count; k++)
        if (!same_figure(p, a->figure[k], b->figure[k], 0))
            return false;
    return true;
}

/* Supplies may differ by state, and relays follow what they get. */
static bool same_state(struct pairs *p, const struct circuit_work *w,
                       const struct circuit_memo *a,
                       const struct circuit_memo *b) {
    if (!a->known || !b->known ||
        memcmp(a->open, b->open, w->part_count * sizeof *a->open) != 0 ||
        memcmp(a->peak, b->peak, w->part_count * sizeof *a->peak) != 0 ||
        memcmp(a->start, b->start, w->part_count * sizeof *a->start) != 0 ||
        !same_figure(p, a->span, b->span, 0))
        return false;
    for (size_t s = 0; s < w->c->supply_count; s++)
        if (!same_piece(p, &a->supply[s], &b->supply[s]))
            return false;
    return true;
}

bool circuit_twin_is(const struct circuit_work *a,
                     const struct circuit_work *b) {
    struct pairs p;
    p.count = 0;
    if (a->node_count != b->node_count ||
        !same_figure(&p, a->cranking, b->cranking, 0))
        return false;
    for (size_t i = 0; i < a->c->element_count; i++)
        if (!same_piece(&p, &a->part[i], &b->part[i]))
            return false;
    for (size_t i = 0; i < a->c->state_count; i++)
        if (!same_state(&p, a, &a->memo[i], &b->memo[i]))
            return false;
    return true;
}

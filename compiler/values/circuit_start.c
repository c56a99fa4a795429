/* circuit_start.c - fuses of a circuit while its loads start. */
#include "values/circuit_start.h"

#include "base/arena.h"
#include "values/circuit_rating.h"
#include "values/circuit_rule.h"
#include "values/circuit_trace.h"
#include "values/circuit_unfused.h"
#include "values/circuit_worst.h"
#include "values/fuse_time.h"
#include "values/range.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

/* The hardest start behind a fuse. */
struct start {
    size_t load;              /* SIZE_MAX: none starts */
    const struct value *says; /* the `starting` of its block, with a time */
    double ampere;            /* through the fuse, A */
    bool alone;               /* nothing else flows in it */
};

/* NULL: it says no starting current. */
static const struct value *starting_of(const struct circuit_work *w,
                                       size_t load) {
    const struct circuit_element *e = &w->c->element[load];
    const struct block *b =
        e->part == CIRCUIT_LOAD && e->word_count > 0
            ? values_block(w->v, w->b->scope, e->word[0], "load")
            : NULL;
    const struct value *says =
        b == NULL ? NULL : block_setting(w->v, b, "starting", w->variant);
    return says != NULL && says->type == VALUE_QUANTITY ? says : NULL;
}

/* The most that a load takes in the state that is solved, A: by its own range
 * alone. */
static double most_of(const struct circuit_work *w, size_t load) {
    const struct circuit_piece *p = &w->part[load];
    double now = fabs(circuit_trace_current(w, load));
    return p->figure_count == 2 && p->figure[0]->nominal > 0
               ? now * range_ends(p->figure[0]).high / p->figure[0]->nominal
               : now;
}

/* Of several fuses side by side each carries a share. */
static double share_of(const struct circuit_work *w, size_t fuse,
                       const bool *load) {
    double all = 0;
    for (size_t i = 0; i < w->c->element_count; i++)
        all += load[i] ? fabs(circuit_trace_current(w, i)) : 0;
    return all > 0 ? fmin(1, fabs(circuit_trace_current(w, fuse)) / all) : 0;
}

/* Amperes longer than a curve allows are worse than more of them for less. */
static double hardness(const struct start *s, const struct fuse_style *style,
                       double rating) {
    double shortest, longest;
    if (style == NULL ||
        !fuse_opening(style, s->ampere / rating, &shortest, &longest))
        return s->ampere;
    return range_ends(s->says->with).high / shortest;
}

static void list_unchecked(const struct circuit_work *w, size_t fuse,
                           size_t load, const char *why, const char *source) {
    block_assume(w->v, w->b, w->variant,
                 arena_printf(w->v->c->arena, "start of %s through %s",
                              w->part[load].name, w->part[fuse].name),
                 arena_printf(w->v->c->arena, "not checked: %s", why), source);
}

/* Whether a load of the state is stalled: a fuse may open then. */
static bool is_stalled(const struct circuit_state *s) {
    for (size_t i = 0; i < s->set_count; i++)
        if (text_is(s->set[i].word, "stalled"))
            return true;
    return false;
}

/* A load may start in any state in which it is on, one at a time; where a state
 * says which of them start, these alone. */
static void look_in(struct circuit_work *w, size_t fuse, size_t state,
                    struct start *worst) {
    const struct circuit_piece *p = &w->part[fuse];
    const struct fuse_style *style = circuit_rating_style(w, fuse);
    double rating = range_ends(p->rating).low;
    bool *load = arena_alloc(w->v->c->arena, w->c->element_count, sizeof *load);
    bool told = circuit_worst_is_short(&w->c->state[state]);
    if (!circuit_solve_state(w, state, NULL))
        return;
    circuit_trace_served(w, fuse, load);
    double share = share_of(w, fuse, load), all = 0;
    for (size_t i = 0; i < w->c->element_count; i++)
        all += load[i] ? most_of(w, i) : 0;
    for (size_t i = 0; i < w->c->element_count; i++) {
        struct start one = {.load = i};
        one.says = load[i] && (!told || w->peak[i]) ? starting_of(w, i) : NULL;
        if (one.says == NULL)
            continue;
        double others = all - most_of(w, i);
        one.ampere =
            share * (range_ends(one.says->quantity).high + fmax(others, 0));
        if (one.says->with == NULL) {
            if (one.ampere > rating)
                list_unchecked(w, fuse, i, "its load says no time",
                               "a fuse opens after a time");
            continue;
        }
        one.alone = others <= 1e-3 * all && share > 0.99;
        if (worst->load == SIZE_MAX ||
            hardness(&one, style, rating) > hardness(worst, style, rating))
            *worst = one;
    }
}

/* Its block has held it to this load already. */
static bool is_told(const struct circuit_work *w, const struct block *fuse,
                    const struct start *s) {
    for (size_t i = 0; i < w->v->requirement_count && fuse != NULL; i++) {
        const struct requirement *r = &w->v->requirement[i];
        if (r->block == fuse && r->variant == w->variant && r->rule != NULL &&
            strcmp(r->rule, "start") == 0 && r->left == s->says->with)
            return true;
    }
    return false;
}

static void require_fuse(const struct circuit_work *w, size_t fuse,
                         const struct start *s) {
    const struct fuse_style *style = circuit_rating_style(w, fuse);
    const struct block *block = circuit_rating_block(w, fuse);
    double shortest, longest;
    if (style == NULL || style->time == NULL) {
        if (block == NULL)
            list_unchecked(w, fuse, s->load,
                           style == NULL ? "no style is written"
                                         : "no curve of this style is known",
                           style == NULL ? "a fuse opens by the curve of its "
                                           "style"
                                         : style->time_source);
        return;
    }
    bool told = is_told(w, block, s);
    if (!fuse_opening(style, s->ampere / range_ends(w->part[fuse].rating).low,
                      &shortest, &longest) ||
        isinf(shortest) || (s->alone && told))
        return;
    const struct unit *u = unit_find("s", 1);
    struct requirement r = circuit_rule(w, fuse, "start");
    r.what = arena_printf(
        w->v->c->arena,
        "start of %s through %s%s, against its shortest opening time",
        w->part[s->load].name, w->part[fuse].name,
        s->alone ? "" : ", on top of the other loads");
    r.left = s->says->with;
    r.right = quantity_exact(&w->v->maker, shortest, u->dim, u);
    r.source = fuse_time_source(w->v, style);
    r.cure = "a larger fuse, if the wire allows it, or a slower style";
    r.flag = !style->time_verified;
    if (told)
        r.same = (struct slip){"start", block, NULL};
    block_require(w->v, r);
}

void circuit_start_require(struct circuit_work *w) {
    for (size_t i = 0; i < w->c->element_count; i++) {
        struct start worst = {.load = SIZE_MAX};
        if (!circuit_unfused_ends(w, i) || w->part[i].rating == NULL)
            continue;
        for (size_t s = 0; s < w->c->state_count; s++)
            if (!is_stalled(&w->c->state[s]))
                look_in(w, i, s, &worst);
        if (worst.load != SIZE_MAX)
            require_fuse(w, i, &worst);
    }
}

/* circuit_share.c - what a fuse of a circuit may carry for long. */
#include "values/circuit_share.h"

#include "base/arena.h"
#include "calc/fuse.h"
#include "values/circuit_duty.h"
#include "values/circuit_part.h"
#include "values/circuit_rating.h"
#include "values/circuit_rule.h"
#include "values/circuit_trace.h"
#include "values/circuit_worst.h"
#include "values/fuse_input.h"
#include "values/range.h"

#include <math.h>

/* Of the wire block of its path, where a load says none. */
static struct text duty_of_path(const struct circuit_work *w, size_t load) {
    const struct circuit_branch *b = &w->c->branch[w->c->element[load].branch];
    struct text duty = {NULL, 0};
    for (size_t i = b->first; i < b->first + b->count && duty.len == 0; i++) {
        const struct block *wire =
            w->part[i].law == LAW_WIRE
                ? values_block(w->v, w->b->scope, w->c->element[i].word[0],
                               "wire")
                : NULL;
        if (wire != NULL)
            duty = block_text(w->v, wire, "duty", w->variant);
    }
    return duty;
}

/* What a load says of how long it is on; what says nothing may be on for hours,
 * which is listed. */
static bool lasts(const struct circuit_work *w, size_t load, bool *unsaid) {
    const struct circuit_element *e = &w->c->element[load];
    if (e->part != CIRCUIT_LOAD || circuit_part_dropping(e))
        return false;
    struct text duty = circuit_duty_of(w->v, w->b, e, w->variant);
    if (duty.len == 0)
        duty = duty_of_path(w, load);
    *unsaid = *unsaid || duty.len == 0;
    if (duty.len == 0)
        block_assume(
            w->v, w->b, w->variant,
            arena_printf(w->v->c->arena, "duty, %s", w->part[load].name),
            "continuous", "none is stated");
    return duty.len == 0 || text_is(duty, "continuous");
}

static bool is_continuous(const struct circuit_work *w, size_t fuse,
                          bool *unsaid) {
    bool *load = arena_alloc(w->v->c->arena, w->c->element_count, sizeof *load);
    bool any = false;
    circuit_trace_served(w, fuse, load);
    for (size_t i = 0; i < w->c->element_count; i++)
        any = (load[i] && lasts(w, i, unsaid)) || any;
    return any;
}

/* What a fuse block lets stay on, and without `share` the whole of it for a
 * load that does not; NULL: there is none, or it failed. */
static const struct quantity *allowed_by(const struct circuit_work *w,
                                         const struct block *fuse,
                                         bool continuous) {
    const struct value *steady =
        fuse == NULL ? NULL
                     : evaluate_slot(w->v, names_field(w->v, fuse, "steady"),
                                     w->variant);
    if (steady == NULL || steady->type != VALUE_QUANTITY)
        return NULL;
    if (continuous ||
        block_setting(w->v, fuse, "share", w->variant)->type == VALUE_QUANTITY)
        return steady->quantity;
    struct quantity *whole =
        quantity_binary(&w->v->maker, QUANTITY_DIVIDE, steady->quantity,
                        quantity_number(&w->v->maker, FUSE_INPUT_LASTING));
    whole->unit = steady->quantity->unit;
    return whole;
}

/* What the heat leaves of the rating of a fuse without a block, as its block
 * would; past the end of its style's range that at the end, after a requirement
 * that never holds. */
static double left_by_heat(const struct circuit_work *w, size_t fuse,
                           double *kelvin) {
    const struct fuse_style *s = circuit_rating_style(w, fuse);
    *kelvin = circuit_rating_ambient(w, fuse);
    if (s == NULL)
        return 1;
    if (*kelvin > s->hottest) {
        struct requirement r = circuit_rule(w, fuse, "ambient");
        r.what = "ambient of the fuse";
        r.trouble = fuse_ambient_trouble(w->v->c->arena, s, *kelvin);
        r.source = s->ambient_source;
        r.cure = "a cooler place, which a fuse block of its name says, or "
                 "another style";
        block_require(w->v, r);
    }
    double told = *kelvin;
    *kelvin = fmin(told, s->hottest);
    double left = fuse_ambient_factor(s, *kelvin);
    if (left < 1)
        block_assume(
            w->v, w->b, w->variant,
            arena_printf(w->v->c->arena, "ambient, %s", w->part[fuse].name),
            arena_printf(w->v->c->arena, "%.0f\xC2\xA0°C", told - 273.15),
            "that of its wires: none is stated");
    return left;
}

/* What a fuse carries in a state, and what it may. */
struct stay {
    const struct quantity *current, *right;
    const struct value *share; /* of its block; NULL: it states none */
    const char *what;
    bool continuous, unsaid;
    size_t state;
};

static void allow(const struct circuit_work *w, size_t part, double left,
                  double kelvin, struct stay *s) {
    struct arena *a = w->v->c->arena;
    const struct circuit_piece *p = &w->part[part];
    const struct block *fuse = circuit_rating_block(w, part);
    const struct quantity *allowed = allowed_by(w, fuse, s->continuous);
    if (allowed != NULL) {
        s->right = allowed;
        s->share = block_setting(w->v, fuse, "share", w->variant);
        s->what =
            s->continuous ? "what may stay on" : "its rating in its ambient";
        return;
    }
    s->right = circuit_rating_share(
        w, p->rating, left * (s->continuous ? FUSE_INPUT_LASTING : 1));
    s->what = arena_printf(
        a, "%sits rating%s%s", s->continuous ? "80 % of " : "",
        left < 1 ? arena_printf(a, " at %.0f\xC2\xA0°C", kelvin - 273.15) : "",
        s->continuous ? ", for a continuous load" : "");
}

static double part_of(const struct stay *s) {
    return range_ends(s->current).high / range_ends(s->right).low;
}

/* The state in which the fuse is nearest to what it may carry, or furthest
 * beyond: less that stays on for hours may be worse than more that does not. */
static struct stay find_worst(struct circuit_work *w, size_t part, double left,
                              double kelvin) {
    struct stay worst = {.current = NULL};
    for (size_t i = 0; i < w->c->state_count; i++) {
        struct stay s = {.state = i};
        if (circuit_worst_is_short(&w->c->state[i]))
            continue;
        s.current = circuit_worst_figure(w, part, i, "current");
        if (s.current == NULL || !circuit_solve_state(w, i, NULL))
            continue;
        s.current = quantity_abs(&w->v->maker, s.current);
        s.continuous = is_continuous(w, part, &s.unsaid);
        allow(w, part, left, kelvin, &s);
        if (worst.current == NULL || part_of(&s) > part_of(&worst))
            worst = s;
    }
    return worst;
}

void circuit_share_require(struct circuit_work *w, size_t part) {
    const struct circuit_piece *p = &w->part[part];
    const struct block *fuse = circuit_rating_block(w, part);
    if (p->rating == NULL)
        return;
    double kelvin = 0, left = fuse == NULL ? left_by_heat(w, part, &kelvin) : 1;
    struct stay worst = find_worst(w, part, left, kelvin);
    if (worst.current == NULL)
        return;
    struct requirement r = circuit_rule(w, part, "share");
    r.what =
        arena_printf(w->v->c->arena, "current through %s%s, against %s",
                     p->name, circuit_worst_words(w, worst.state), worst.what);
    r.left = worst.current;
    r.right = worst.right;
    r.source = fuse_input_share(w->v, worst.share, worst.continuous);
    r.cure = worst.unsaid
                 ? "a larger fuse, if the wire allows it; or, of a load that "
                   "is not on for hours, write intermittent"
                 : "a larger fuse, if the wire allows it";
    r.same = fuse != NULL ? (struct slip){"share", fuse, NULL}
                          : (struct slip){"ambient", w->b, p->name};
    block_require(w->v, r);
}

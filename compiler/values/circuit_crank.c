/* circuit_crank.c - currents of a circuit that last as long as an engine is
 * cranked, and those that last longer. */
#include "values/circuit_crank.h"

#include "base/arena.h"
#include "values/circuit_trace.h"
#include "values/electrical.h"
#include "values/range.h"
#include "values/wire_input.h"

#include <math.h>

static bool is_cranked_load(const struct circuit_work *w, size_t i) {
    const struct circuit_element *e = &w->c->element[i];
    if (e->part != CIRCUIT_LOAD || w->part[i].law == LAWS)
        return false;
    return electrical_cranks(
        w->v, values_block(w->v, w->b->scope, e->word[0], "load"), w->variant);
}

static bool is_cranked_wire(const struct circuit_work *w, size_t i) {
    if (w->part[i].law != LAW_WIRE)
        return false;
    const struct block *b =
        values_block(w->v, w->b->scope, w->c->element[i].word[0], "wire");
    const struct wire_outcome *o =
        b == NULL ? NULL : electrical_wire(w->v, b, w->variant);
    return o != NULL && o->cranking;
}

bool circuit_crank_loads(const struct circuit_work *w) {
    for (size_t i = 0; i < w->c->element_count; i++)
        if (is_cranked_load(w, i))
            return true;
    return false;
}

bool circuit_crank_any(const struct circuit_work *w) {
    for (size_t i = 0; i < w->c->element_count; i++)
        if (is_cranked_load(w, i) || is_cranked_wire(w, i))
            return true;
    return false;
}

/* A wire of such a block in the same path. */
static bool stands_in_cranked_path(const struct circuit_work *w, size_t part) {
    const struct circuit_branch *b = &w->c->branch[w->c->element[part].branch];
    if (w->part[part].law == LAW_WIRE)
        return is_cranked_wire(w, part);
    for (size_t i = b->first; i < b->first + b->count; i++)
        if (is_cranked_wire(w, i))
            return true;
    return false;
}

static const struct quantity *current_in(const struct circuit_work *w,
                                         size_t part, size_t state) {
    const struct quantity *q = circuit_worst_figure(w, part, state, "current");
    return q == NULL ? NULL : quantity_abs(&w->v->maker, q);
}

static double most_of(const struct quantity *q) {
    return q == NULL ? 0 : range_ends(q).high;
}

static void keep_larger(struct circuit_worst *worst, const struct quantity *q,
                        size_t state) {
    if (most_of(q) > most_of(worst->current))
        *worst = (struct circuit_worst){q, state};
}

/* What the loads that are not cranked take together, at most what flows; NULL:
 * none takes anything. */
static const struct quantity *without(const struct circuit_work *w,
                                      const bool *load, size_t state,
                                      const struct quantity *all) {
    const struct quantity *sum = NULL;
    for (size_t i = 0; i < w->c->element_count; i++) {
        const struct quantity *own =
            load[i] && !is_cranked_load(w, i) ? current_in(w, i, state) : NULL;
        if (own != NULL)
            sum = sum == NULL
                      ? own
                      : quantity_binary(&w->v->maker, QUANTITY_ADD, sum, own);
    }
    return most_of(sum) < most_of(all) ? sum : all;
}

static bool any_cranked(const struct circuit_work *w, const bool *load) {
    for (size_t i = 0; i < w->c->element_count; i++)
        if (load[i] && is_cranked_load(w, i))
            return true;
    return false;
}

struct circuit_crank circuit_crank_of(struct circuit_work *w, size_t part) {
    struct circuit_crank c = {{NULL, 0}, {NULL, 0}};
    bool *load = arena_alloc(w->v->c->arena, w->c->element_count, sizeof *load);
    bool always = !circuit_crank_loads(w) && stands_in_cranked_path(w, part);
    for (size_t s = 0; s < w->c->state_count; s++) {
        if (circuit_worst_is_short(&w->c->state[s]))
            continue;
        const struct quantity *q = current_in(w, part, s);
        if (q == NULL || !circuit_solve_state(w, s, NULL))
            continue;
        if (circuit_trace_loads(w, part, true, load) == 0)
            circuit_trace_loads(w, part, false, load);
        if (always) {
            keep_larger(&c.start, q, s);
        } else if (any_cranked(w, load)) {
            keep_larger(&c.start, q, s);
            keep_larger(&c.lasting, without(w, load, s, q), s);
        } else {
            keep_larger(&c.lasting, q, s);
        }
    }
    return c;
}

static bool starts(const struct circuit_work *w, size_t i) {
    return is_cranked_load(w, i) || w->peak[i];
}

/* Of the loads that a wire feeds or brings back. */
static double share_of(struct circuit_work *w, size_t wire, bool *load) {
    double start = 0, all = 0;
    if (circuit_trace_loads(w, wire, true, load) == 0)
        circuit_trace_loads(w, wire, false, load);
    for (size_t i = 0; i < w->c->element_count; i++) {
        double own = load[i] ? fabs(circuit_trace_current(w, i)) : 0;
        all += own;
        start += starts(w, i) ? own : 0;
    }
    return all > 0 ? start / all : 0;
}

/* For how long a load of the state takes its peak: as its block says; 0 where
 * it is stalled. */
static const struct quantity *peak_time(const struct circuit_work *w,
                                        size_t load) {
    const struct circuit_state *s = &w->c->state[w->state];
    const struct circuit_element *e = &w->c->element[load];
    const struct value *start =
        block_setting(w->v, values_block(w->v, w->b->scope, e->word[0], "load"),
                      "starting", w->variant);
    for (size_t i = 0; i < s->set_count; i++)
        if (s->set[i].element != CIRCUIT_NONE &&
            text_equal(w->c->element[s->set[i].element].name, e->name) &&
            text_is(s->set[i].word, "starting") && start->with != NULL)
            return start->with;
    const struct unit *second = unit_find("s", 1);
    return quantity_exact(&w->v->maker, 0, second->dim, second);
}

static bool is_cranked_now(const struct circuit_work *w) {
    for (size_t i = 0; i < w->c->element_count; i++)
        if (is_cranked_load(w, i) && circuit_trace_current(w, i) != 0)
            return true;
    return false;
}

static const struct quantity *span_of(struct circuit_work *w) {
    const struct quantity *longest = NULL;
    if (is_cranked_now(w)) {
        if (w->cranking == NULL)
            w->cranking = wire_input_cranking(w->v, w->b, w->variant);
        return w->cranking;
    }
    for (size_t i = 0; i < w->c->element_count; i++) {
        const struct quantity *one =
            w->peak[i] && w->part[i].law != LAWS ? peak_time(w, i) : NULL;
        if (one != NULL && (longest == NULL ||
                            range_ends(one).high > range_ends(longest).high))
            longest = one;
    }
    return longest;
}

static bool any_starts(const struct circuit_work *w) {
    for (size_t i = 0; i < w->c->element_count; i++)
        if (w->part[i].law != LAWS && starts(w, i))
            return true;
    return false;
}

bool circuit_crank_share(struct circuit_work *w) {
    bool any = false;
    if (!any_starts(w))
        return false;
    bool *load = arena_alloc(w->v->c->arena, w->c->element_count, sizeof *load);
    for (size_t i = 0; i < w->c->element_count; i++) {
        if (w->part[i].law != LAW_WIRE ||
            w->part[i].figure_count == WIRE_CRANKED ||
            (w->start[i] = share_of(w, i, load)) == 0)
            continue;
        any = true;
    }
    if (any)
        w->span = span_of(w);
    return any;
}

void circuit_crank_warm(struct circuit_work *w) {
    for (size_t i = 0; i < w->c->element_count; i++) {
        double lasts = fabs(circuit_trace_current(w, i)) * (1 - w->start[i]);
        if (w->part[i].law == LAW_WIRE &&
            w->part[i].figure_count != WIRE_CRANKED)
            w->warm[i] = fmax(w->warm[i], lasts);
    }
}

/* K, before the start. */
static const struct quantity *heat_before(const struct circuit_work *w,
                                          size_t wire,
                                          const struct quantity *lasting) {
    const struct circuit_piece *p = &w->part[wire];
    const struct quantity *of[] = {lasting, p->figure[2]};
    return lasting == NULL
               ? p->figure[2]
               : quantity_call(&w->v->maker, wire_calculation(WIRE_TEMPERATURE),
                               p->run, of);
}

/* K, after a time with the current of a start. */
static struct quantity *heat_after(const struct circuit_work *w, size_t wire,
                                   const struct circuit_crank *crank,
                                   const struct quantity *time) {
    const struct ampacity_use *use = &w->part[wire].run->ampacity.use;
    return wire_input_cranked(w->v, use->size, use->material,
                              crank->start.current, time,
                              heat_before(w, wire, crank->lasting.current));
}

struct quantity *circuit_crank_heat(struct circuit_work *w, size_t wire,
                                    const struct circuit_crank *crank) {
    const struct circuit_piece *p = &w->part[wire];
    return heat_after(w, wire, crank,
                      p->figure_count == WIRE_CRANKED ? p->figure[3]
                      : w->cranking != NULL
                          ? w->cranking
                          : wire_input_cranking(w->v, w->b, w->variant));
}

struct quantity *circuit_crank_temperature(struct circuit_work *w, size_t wire,
                                           size_t state) {
    struct circuit_crank crank = circuit_crank_of(w, wire);
    crank.start.current = current_in(w, wire, state);
    return crank.start.current == NULL || !circuit_solve_state(w, state, NULL)
               ? NULL
               : heat_after(w, wire, &crank, w->span);
}

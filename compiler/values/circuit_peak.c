/* circuit_peak.c - wires against what flows while a load starts or is stalled.
 */
#include "values/circuit_peak.h"

#include "base/arena.h"
#include "calc/fuse.h"
#include "calc/heating.h"
#include "calc/rounding.h"
#include "calc/wire.h"
#include "values/circuit_rating.h"
#include "values/circuit_rule.h"
#include "values/circuit_trace.h"
#include "values/circuit_worst.h"
#include "values/figure.h"
#include "values/range.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

/* s, of a fault by IEC 60364-4-43 434.5.2: up to here insulation stands its
 * limit for a fault, beyond it what it is rated for. */
#define SHORT_TIME 5.0

/* A state in which a load is at its peak. */
struct peak {
    struct circuit_work *w;
    size_t load;
    bool stalled;
    double lasts;              /* s, of the start; INFINITY: stalled */
    const struct ends *ampere; /* by element, never below 0 */
};

/* One wire at one end of the currents. */
struct heat {
    size_t wire, fuse; /* the fuse that opens last; SIZE_MAX: none guards it */
    bool high;         /* the end */
    double stands; /* s, until it is as hot as its insulation is rated for */
    double opens;  /* s, of the fuse at the latest; INFINITY: it need not,
                      NAN: its times are not known */
};

static double end_of(struct ends e, bool high) {
    return high ? e.high : e.low;
}

static double opens_after(const struct peak *k, size_t fuse, bool high) {
    const struct fuse_style *style = circuit_rating_style(k->w, fuse);
    const struct quantity *rating = k->w->part[fuse].rating;
    double shortest, longest;
    if (style == NULL || rating == NULL ||
        !fuse_opening(style, end_of(k->ampere[fuse], high) / rating->nominal,
                      &shortest, &longest))
        return NAN;
    return longest;
}

/* s, from what lasts on, until the conductor is at `limit`, K. */
static double stands_for(const struct peak *k, const struct heat *h,
                         double limit) {
    struct circuit_piece p = circuit_solve_piece(k->w, h->wire);
    double ambient = range_ends(p.figure[2]).high;
    double x[PART_FIGURES] = {range_ends(p.figure[0]).high,
                              range_ends(p.figure[1]).high, ambient, 0};
    return wire_time(p.run, end_of(k->ampere[h->wire], h->high),
                     circuit_part_before(&p, x), ambient, limit);
}

static double rated(const struct peak *k, size_t wire) {
    return k->w->part[wire].run->ampacity.use.insulation;
}

static bool is_long_enough(const struct peak *k, const struct heat *h) {
    double needs = fmin(k->lasts, h->opens); /* the one that is known */
    const struct insulation *kind = insulation_rated(rated(k, h->wire));
    return needs <= h->stands || (needs <= SHORT_TIME && kind != NULL &&
                                  needs <= stands_for(k, h, kind->limit));
}

static struct heat heat_of(const struct peak *k, size_t wire, bool high) {
    size_t n = k->w->c->element_count;
    bool *fuse = arena_alloc(k->w->v->c->arena, n, sizeof *fuse);
    struct heat h = {
        .wire = wire, .fuse = SIZE_MAX, .high = high, .opens = INFINITY};
    h.stands = stands_for(k, &h, rated(k, wire));
    circuit_trace_fuses(k->w, wire, fuse);
    for (size_t i = 0; i < n && !isnan(h.opens); i++) {
        double one = fuse[i] ? opens_after(k, i, high) : 0;
        if (!fuse[i] || (h.fuse != SIZE_MAX && one <= h.opens))
            continue;
        h.fuse = i;
        h.opens = one;
    }
    return h;
}

/* Whether the wire carries the peak of this load: another may be at its own. */
static bool feeds(const struct peak *k, size_t wire) {
    size_t n = k->w->c->element_count;
    bool *load = arena_alloc(k->w->v->c->arena, n, sizeof *load);
    if (circuit_trace_loads(k->w, wire, true, load) == 0)
        circuit_trace_loads(k->w, wire, false, load);
    return load[k->load];
}

/* The wire that is too hot first; false: none is. */
static bool find_first(const struct peak *k, struct heat *out) {
    bool found = false;
    for (size_t i = 0; i < 2 * k->w->c->element_count; i++) {
        if (k->w->part[i / 2].law != LAW_WIRE || !(k->w->start[i / 2] > 0) ||
            !feeds(k, i / 2))
            continue;
        struct heat h = heat_of(k, i / 2, i % 2 == 0);
        if (!isfinite(h.stands) || is_long_enough(k, &h) ||
            (found && out->stands <= h.stands))
            continue;
        *out = h;
        found = true;
    }
    return found;
}

/* "90 s", "3 min": no longer than it is. */
static const char *time_text(const struct circuit_work *w, double s) {
    return figure_short(w->v->c->arena, s, s < 120 ? "s" : "min", 1,
                        ROUND_DOWN);
}

/* "F1 need not open at 490 A" */
static const char *fuse_words(const struct peak *k, const struct heat *h) {
    struct arena *a = k->w->v->c->arena;
    if (h->fuse == SIZE_MAX)
        return "no fuse is ahead of it";
    const char *name = k->w->part[h->fuse].name;
    const char *ampere =
        figure_short(k->w->v->c->arena, end_of(k->ampere[h->fuse], h->high),
                     "A", 3, ROUND_HALF_EVEN);
    if (isnan(h->opens))
        return arena_printf(a, "when %s opens at %s is not known", name,
                            ampere);
    if (isinf(h->opens))
        return arena_printf(a, "%s need not open at %s", name, ampere);
    return arena_printf(
        a, "%s may take %s to open at %s", name,
        figure_short(k->w->v->c->arena, h->opens, "s", 2, ROUND_UP), ampere);
}

static void ask(const struct peak *k, const struct heat *h, struct span at) {
    struct circuit_work *w = k->w;
    struct arena *a = w->v->c->arena;
    const char *load = w->part[k->load].name, *wire = w->part[h->wire].name;
    const char *start =
        k->stalled ? ""
                   : arena_printf(a, "; the start lasts %s",
                                  figure_short(w->v->c->arena, k->lasts, "s", 2,
                                               ROUND_UP));
    struct requirement r = circuit_rule(w, k->load, "peak-heat");
    r.what = arena_printf(a, "heat of %s while %s %s", wire, load,
                          k->stalled ? "is stalled" : "starts");
    r.trouble = arena_printf(
        a, "it passes the %s of its insulation after %s; %s%s",
        figure_short(a, rated(k, h->wire), "degC", 3, ROUND_HALF_EVEN),
        time_text(w, h->stands), fuse_words(k, h), start);
    r.source = "IEC 60949, less what the wire loses at its ampacity";
    r.cure = k->stalled
                 ? "a fuse of a style that opens sooner, a thicker wire, or "
                   "override peak-heat with what switches it off by itself"
                 : "a fuse of a style that opens sooner, or a thicker wire";
    r.flag = true;
    r.at = at;
    block_require(w->v, r);
}

/* Whether something is at its peak in the state that is solved: none that is
 * switched off, and no engine that is cranked, whose wires are held to that. */
static bool has_peak(const struct circuit_work *w) {
    return w->span != NULL && w->span != w->cranking;
}

/* The load that a word of the state puts at its peak; false: none. */
static bool find_load(struct peak *k, const struct circuit_set *set) {
    const struct circuit_work *w = k->w;
    for (size_t e = 0; e < w->c->element_count; e++) {
        if (set->element == CIRCUIT_NONE || !w->peak[e] ||
            w->part[e].law == LAWS ||
            !text_equal(w->c->element[e].name,
                        w->c->element[set->element].name))
            continue;
        k->load = e;
        k->stalled = text_is(set->word, "stalled");
        k->lasts = k->stalled ? INFINITY : range_ends(w->span).high;
        return true;
    }
    return false;
}

/* Of fuses, and of wires through which the peak flows. The state is solved
 * again behind it. */
static const struct ends *currents(struct circuit_work *w, size_t state) {
    size_t n = w->c->element_count;
    struct ends *list = arena_alloc(w->v->c->arena, n, sizeof *list);
    bool *asked = arena_alloc(w->v->c->arena, n, sizeof *asked);
    for (size_t i = 0; i < n; i++)
        asked[i] = w->part[i].law != LAWS &&
                   (w->start[i] > 0 || w->part[i].rating != NULL);
    for (size_t i = 0; i < n; i++) {
        const struct quantity *q =
            asked[i] ? circuit_worst_figure(w, i, state, "current") : NULL;
        if (q != NULL)
            list[i] = range_ends(quantity_abs(&w->v->maker, q));
    }
    circuit_solve_state(w, state, NULL);
    return list;
}

void circuit_peak_require(struct circuit_work *w) {
    for (size_t s = 0; s < w->c->state_count; s++) {
        const struct circuit_state *state = &w->c->state[s];
        struct peak k = {.w = w};
        struct heat first = {.stands = INFINITY};
        if (!circuit_worst_is_short(state) ||
            !circuit_solve_state(w, s, NULL) || !has_peak(w))
            continue;
        k.ampere = currents(w, s);
        for (size_t i = 0; i < state->set_count; i++)
            if (find_load(&k, &state->set[i]) && find_first(&k, &first))
                ask(&k, &first, state->set[i].at);
    }
}

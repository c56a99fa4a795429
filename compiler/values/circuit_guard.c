/* circuit_guard.c - what guards a circuit against a short: fuses able to break
 * what the sources can feed, opened by a short anywhere behind them. */
#include "values/circuit_guard.h"

#include "base/arena.h"
#include "calc/fuse.h"
#include "values/circuit_block.h"
#include "values/circuit_fault.h"
#include "values/circuit_rating.h"
#include "values/circuit_rule.h"
#include "values/circuit_trace.h"
#include "values/circuit_unfused.h"
#include "values/electrical.h"
#include "values/fuse_input.h"
#include "values/fuse_time.h"
#include "values/range.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

enum { INTERRUPT_UNKNOWN = 1000 }; /* A: hazard catalogue, H04b */

struct guard {
    const struct circuit_work *w;
    struct arena *arena;
    struct circuit_fault *most;
    const struct circuit_fault_ways *least;
};

static struct quantity *current_of(const struct guard *g, double ampere) {
    return block_table(g->w->v, ampere, (struct ends){ampere, ampere}, "A", "",
                       "open voltage over the resistance that feeds the short");
}

/* A, into a short at a node, less what comes through the fuse itself: what
 * would pass a fuse of no resistance, with the short at its far end. To a minus
 * or, for a fuse on the way back, from a plus. */
static double beyond(struct guard *g, size_t fuse, size_t node) {
    double out = circuit_fault_at(g->most, node);
    out -= circuit_fault_through(g->most, fuse);
    double in = circuit_fault_into(g->most, node);
    return fmax(out, in - circuit_fault_through(g->most, fuse));
}

/* The prospective current, by which fuses are rated: with a link of no
 * resistance in place of the fuse, and the short at either of its ends. Source:
 * IEC 60269-1, 2.1.5 and 2.3.2, from memory. */
static double to_break(struct guard *g, size_t fuse) {
    return fmax(beyond(g, fuse, g->w->from[fuse]),
                beyond(g, fuse, g->w->to[fuse]));
}

/* The block counts the wire ahead of the fuse, the circuit what its paths say.
 * A fuse on the post that is not grounded has none, whichever way round its
 * path is written. */
static const char *breaking_cure(const struct guard *g,
                                 const struct block *block, size_t fuse) {
    static const char style[] =
        "a style that breaks more, such as class T, or a fuse ahead of it";
    const struct circuit_work *w = g->w;
    const struct value *place =
        block == NULL ? NULL : block_setting(w->v, block, "place", w->variant);
    bool at_post = false;
    for (size_t s = w->c->element_count; s < w->part_count; s++) {
        size_t hot = circuit_trace_hot_post(w, s);
        size_t other = circuit_trace_floats(w, s) ? w->from[s] : hot;
        at_post = at_post || (w->part[s].law != LAWS &&
                              (hot == w->from[fuse] || hot == w->to[fuse] ||
                               other == w->from[fuse] || other == w->to[fuse]));
    }
    if (place == NULL || place->type != VALUE_QUANTITY || !at_post)
        return style;
    return arena_printf(
        g->arena,
        "the wire of %s that leads to it, written between the post "
        "and it, or %s",
        figure_of(g->arena, place->quantity, FIGURE_PLAIN), style);
}

static void require_breaking(struct guard *g, size_t fuse) {
    const struct circuit_work *w = g->w;
    double volt = circuit_fault_volt(g->most, fuse);
    struct circuit_breaking can = circuit_rating_breaks(w, fuse, volt);
    double ampere = to_break(g, fuse);
    if (can.limit == NULL && ampere <= INTERRUPT_UNKNOWN)
        return;
    const struct quantity *fault = electrical_fault_beside(
        electrical_fault(current_of(g, ampere)), can.limit);
    block_require(
        w->v,
        (struct requirement){
            .block = can.block != NULL ? can.block : w->b,
            .variant = w->variant,
            .rule = "H04b",
            .what = arena_printf(g->arena,
                                 "fault current through %s against its "
                                 "interrupting rating",
                                 w->part[fuse].name),
            .left = can.limit == NULL ? NULL : fault,
            .right = can.limit,
            .relation = RELATION_AT_MOST,
            .source = can.source,
            .trouble = arena_printf(
                g->arena,
                "a short behind %s may take %s and its interrupting rating%s "
                "is not known",
                w->part[fuse].name, figure_of(g->arena, fault, FIGURE_HIGH),
                can.upto > 0 ? arena_printf(g->arena,
                                            " at %.0f V, above the %.0f V of "
                                            "its style,",
                                            volt, can.upto)
                             : ""),
            .cure = can.limit != NULL ? breaking_cure(g, can.block, fuse)
                    : can.block != NULL
                        ? "write interrupt: from the maker's data"
                    : can.upto > 0 ? "a style for that voltage, such as class "
                                     "T, or write what its maker states there: "
                                     "breaks 2 kA"
                                   : "name its style, or write: breaks 2 kA",
            .at = w->part[fuse].element->at});
}

/* Whether only sources that limit themselves feed a short, with no more than
 * the fuse is rated for: then it need not open, since its wire carries that. */
static bool is_harmless(const struct circuit_fault *f, double ampere,
                        double rating) {
    const struct circuit_work *w = f->w;
    for (size_t s = w->c->element_count; s < w->part_count; s++)
        if (f->in_net[s] != SIZE_MAX && circuit_solve_output(w, s) == NULL)
            return false;
    return ampere <= rating;
}

/* An arc goes on burning where the fuse is not made for the voltage, however
 * little current it breaks. */
static void ask_volt(const struct guard *g, size_t fuse) {
    const struct circuit_work *w = g->w;
    const struct fuse_style *style = circuit_rating_style(w, fuse);
    const struct block *block = circuit_rating_block(w, fuse);
    double volt = circuit_fault_volt(g->most, fuse);
    if (style == NULL || !(volt > style->volt))
        return;
    struct requirement r = circuit_rule(w, fuse, "voltage");
    r.what = arena_printf(g->arena, "voltage across %s once it is open",
                          w->part[fuse].name);
    r.trouble = fuse_volt_trouble(g->arena, style, volt);
    r.source = style->volt_source;
    r.cure = FUSE_VOLT_CURE;
    r.flag = true;
    if (block != NULL)
        r.same = (struct slip){"voltage", block, NULL};
    block_require(w->v, r);
}

/* The load at whose terminals a short takes least through the fuse before it;
 * SIZE_MAX: it feeds none by itself. */
static size_t hardest(struct guard *g, size_t fuse, bool *zone,
                      double *ampere) {
    const struct circuit_work *w = g->w;
    size_t worst = SIZE_MAX;
    bool minus_hot = circuit_trace_minus_hot(w, w->c->element_count);
    for (size_t i = 0; i < w->c->element_count; i++) {
        if (w->part[i].law == LAWS || w->c->element[i].part != CIRCUIT_LOAD)
            continue;
        circuit_unfused_zone(w, minus_hot ? w->to[i] : w->from[i], zone);
        if (zone[w->from[fuse]] == zone[w->to[fuse]])
            continue;
        for (size_t k = 0; k < g->least->count; k++) {
            struct circuit_fault *way = g->least->way[k];
            double all = circuit_fault_between(way, w->from[i], w->to[i]);
            double own = circuit_fault_through(way, fuse);
            if (all <= 0 || own < FAULT_PART * all ||
                is_harmless(way, own, range_ends(w->part[fuse].rating).low) ||
                (worst != SIZE_MAX && own >= *ampere))
                continue;
            worst = i;
            *ampere = own;
        }
    }
    return worst;
}

/* 3.5 times its rating opens a blade fuse within half a second. */
static void require_opening(struct guard *g, size_t fuse) {
    const struct circuit_work *w = g->w;
    const struct quantity *rating = w->part[fuse].rating;
    bool *zone = arena_alloc(g->arena, w->node_count, sizeof *zone);
    double ampere = 0;
    size_t load = hardest(g, fuse, zone, &ampere);
    const struct block *block = circuit_rating_block(w, fuse);
    if (load == SIZE_MAX)
        return;
    block_require(
        w->v,
        (struct requirement){
            .block = block != NULL ? block : w->b,
            .variant = w->variant,
            .rule = "H06b",
            .what = arena_printf(g->arena,
                                 "3.5 times the rating of %s, against a short "
                                 "at %s",
                                 w->part[fuse].name, w->part[load].name),
            .left = quantity_binary(&w->v->maker, QUANTITY_MULTIPLY,
                                    quantity_number(&w->v->maker, 3.5), rating),
            .right = current_of(g, ampere),
            .relation = RELATION_AT_MOST,
            .source = fuse_time_opening(w->v, circuit_rating_style(w, fuse)),
            .cure = "a smaller fuse or a thicker wire",
            .flag = true,
            .at = w->part[fuse].element->at});
}

static bool open_guard(struct circuit_work *w, struct guard *g) {
    circuit_solve_all_on(w);
    *g = (struct guard){.w = w, .arena = w->v->c->arena};
    g->most = circuit_fault_most(w);
    g->least = circuit_fault_least(w);
    return g->most != NULL && g->least != NULL;
}

/* An element of its name that is there in the variant, behind `from`; SIZE_MAX:
 * there is none. */
static size_t element_of(struct values *v, const struct block *circuit,
                         const struct block *fuse, size_t variant,
                         size_t from) {
    const struct circuit *c = circuit->circuit;
    if (c == NULL || c->bad || circuit_part_is_found(v, circuit, variant))
        return SIZE_MAX;
    for (size_t i = from; i < c->element_count; i++) {
        const struct circuit_element *e = &c->element[i];
        if ((e->part == CIRCUIT_FUSE || e->part == CIRCUIT_BREAKER) &&
            (values_tagged(v, &e->tags) >> variant & 1) != 0 &&
            text_equal(e->name, fuse->name) &&
            values_block(v, circuit->scope, e->name, "fuse") == fuse)
            return i;
    }
    return SIZE_MAX;
}

bool circuit_guard_knows(struct values *v, const struct block *fuse,
                         size_t variant) {
    for (size_t i = 0; i < v->guide->block_count; i++)
        if (element_of(v, v->guide->blocks[i], fuse, variant, 0) != SIZE_MAX)
            return true;
    return false;
}

static void widen(struct guard *g, size_t fuse, double *high, double *low) {
    bool *zone = arena_alloc(g->arena, g->w->node_count, sizeof *zone);
    double ampere = 0;
    *high = fmax(*high, to_break(g, fuse));
    if (hardest(g, fuse, zone, &ampere) != SIZE_MAX)
        *low = fmin(*low, ampere); /* one of them may be NAN */
}

bool circuit_guard_faults(struct values *v, const struct block *fuse,
                          size_t variant, double *high, double *low) {
    *high = *low = NAN;
    for (size_t b = 0; b < v->guide->block_count; b++) {
        const struct block *one = v->guide->blocks[b];
        size_t i = element_of(v, one, fuse, variant, 0);
        struct guard g;
        struct circuit_work *w =
            i == SIZE_MAX ? NULL : circuit_block_open(v, one, variant);
        if (w == NULL || !open_guard(w, &g))
            continue;
        for (; i != SIZE_MAX; i = element_of(v, one, fuse, variant, i + 1))
            if (circuit_unfused_ends(w, i) && w->part[i].rating != NULL)
                widen(&g, i, high, low);
    }
    return !isnan(*high);
}

void circuit_guard_require(struct circuit_work *w) {
    struct guard g;
    circuit_solve_all_on(w);
    circuit_unfused_require(w);
    if (!open_guard(w, &g))
        return;
    for (size_t i = 0; i < w->c->element_count; i++) {
        if (!circuit_unfused_ends(w, i) || w->part[i].rating == NULL)
            continue;
        require_breaking(&g, i);
        ask_volt(&g, i);
        require_opening(&g, i);
    }
}

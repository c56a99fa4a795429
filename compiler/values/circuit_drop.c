/* circuit_drop.c - what reaches the loads of a circuit: what they lose on the
 * way, and the voltage that they get. */
#include "base/arena.h"
#include "values/circuit_block.h"
#include "values/circuit_carry.h"
#include "values/circuit_rule.h"
#include "values/circuit_trace.h"
#include "values/circuit_volts.h"
#include "values/circuit_worst.h"
#include "values/drop_limit.h"
#include "values/electrical.h"
#include "values/range.h"
#include "values/sense.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

static const struct block *block_of(const struct circuit_work *w, size_t load) {
    const struct circuit_element *e = &w->c->element[load];
    return values_block(w->v, w->b->scope, e->word[0], "load");
}

static bool is_safety(const struct circuit_work *w, size_t load) {
    const struct block *b = block_of(w, load);
    return b != NULL && block_text(w->v, b, "serves", w->variant).len > 0;
}

/* What feeds a load: a supply, or several in series. */
struct origin {
    const struct quantity *volt; /* open, together */
    const char *name;
};

static struct origin origin_of(struct circuit_work *w, size_t supply) {
    struct arena *a = w->v->c->arena;
    size_t *string = arena_alloc(a, w->part_count, sizeof *string);
    size_t count = circuit_trace_string(w, supply, string);
    struct origin from = {w->part[supply].figure[0], w->part[supply].name};
    for (size_t i = 1; i < count; i++) {
        const struct circuit_piece *p = &w->part[string[i]];
        from.volt = quantity_binary(&w->v->maker, QUANTITY_ADD, from.volt,
                                    p->figure[0]);
        from.name = arena_printf(a, "%s and %s", from.name, p->name);
    }
    return from;
}

/* The most that a load may lose, in volts; per cent are of what feeds it, in
 * the state at hand. */
static const struct quantity *limit_of(struct circuit_work *w, size_t load,
                                       const struct quantity *supply,
                                       const char **source) {
    struct drop_limit limit = drop_limit_stated(w->v, w->b, w->variant);
    *source = "drop limit of the circuit";
    if (block_is_bad(w->v, w->b, "drop limit", w->variant))
        return NULL;
    if (!drop_limit_is_known(&limit)) {
        limit = drop_limit_usual(w->v, block_of(w, load), w->variant);
        *source = drop_limit_assume(
            w->v, w->b, w->variant,
            arena_printf(w->v->c->arena, "drop limit, %s", w->part[load].name),
            &limit);
    }
    return drop_limit_volt(w->v, &limit, supply);
}

/* What a load loses from the supply that feeds it, in one state. */
struct lost {
    const struct quantity *volt, *limit; /* NULL: nothing, or no limit */
    const char *source;
    size_t state;
    struct origin from;
};

static struct lost lost_in(struct circuit_work *w, size_t load, size_t state) {
    struct lost lost = {.state = state};
    if (circuit_worst_is_short(&w->c->state[state]) ||
        !circuit_solve_state(w, state, NULL) ||
        fabs(circuit_trace_current(w, load)) < 1e-3)
        return lost;
    size_t supply = circuit_trace_supply(w, load);
    if (supply == SIZE_MAX)
        return lost;
    lost.from = origin_of(w, supply);
    const struct circuit_output output = {
        .result = RESULT_LOSS,
        .state = state,
        .index = load,
        .field = {"loss", "V", "supply less load"},
        .supply = supply - w->c->element_count};
    const char *name =
        arena_printf(w->v->c->arena, "loss of %s", w->part[load].name);
    struct value value = circuit_block_result(w->v, w->b, &output,
                                              text_of(name), w->variant, NULL);
    if (value.type != VALUE_QUANTITY || !circuit_solve_state(w, state, NULL))
        return lost;
    lost.volt = value.quantity;
    lost.limit = limit_of(w, load, lost.from.volt, &lost.source);
    return lost;
}

static double share_lost(const struct lost *l) {
    return range_ends(l->volt).high / range_ends(l->limit).low;
}

static void note_safety_drop(struct circuit_work *w, const struct lost *l) {
    struct circuit_extremes *e = w->v->of_block[w->b->index].extremes;
    double supply = range_ends(l->from.volt).low;
    e->safety_drop = fmax(e->safety_drop, range_ends(l->volt).high / supply);
}

/* The resistance of a contact in the way of a load; NULL: the part is none, or
 * carries less than half of the load's current. */
static const struct quantity *contact_ohm(const struct circuit_work *w,
                                          size_t part, size_t load) {
    const struct circuit_piece *p = &w->part[part];
    enum circuit_part kind = w->c->element[part].part;
    if (p->law != LAW_RESISTANCE || p->figure_count != 1 ||
        kind == CIRCUIT_FUSE || kind == CIRCUIT_BREAKER ||
        kind == CIRCUIT_LOAD || kind == CIRCUIT_COIL ||
        fabs(circuit_trace_current(w, part)) <
            0.5 * fabs(circuit_trace_current(w, load)))
        return NULL;
    return p->figure[0];
}

/* The contact that may lose most of what this load loses, where that is as much
 * as half of the limit: it decides more than the wire. One whose resistance is
 * assumed is to be measured, where the rest alone would hold. NULL: none is. */
static const char *contact_cure(const struct circuit_work *w, size_t load,
                                const struct lost *lost) {
    struct arena *a = w->v->c->arena;
    double limit = range_ends(lost->limit).low, most = limit / 2;
    double all = range_ends(lost->volt).high;
    const char *cure = NULL;
    for (size_t i = 0; i < w->c->element_count; i++) {
        const struct quantity *ohm = contact_ohm(w, i, load);
        double volt = ohm == NULL ? 0
                                  : range_ends(ohm).high *
                                        fabs(circuit_trace_current(w, load));
        if (volt < most)
            continue;
        bool assumed = ohm->op == QUANTITY_ROOT && ohm->root == ROOT_ASSUMPTION;
        const char *name = w->part[i].name;
        if (assumed && all - volt > limit)
            continue;
        most = volt;
        cure =
            assumed
                ? arena_printf(
                      a,
                      "%s is assumed at up to %s, since none is stated: "
                      "measure it and write it; else thicker wire, or a relay "
                      "near the load",
                      name, figure_of(a, ohm, FIGURE_HIGH))
                : arena_printf(
                      a,
                      "%s alone loses about %s: a better one; else thicker "
                      "wire, or a relay near the load",
                      name, circuit_volts(a, volt, ROUND_HALF_EVEN));
    }
    return cure;
}

/* Whether a load is there to lose volts, or gets next to all of its current
 * through one that is, in the state that is solved. */
static bool is_dropped(const struct circuit_work *w, size_t load) {
    size_t n = w->c->element_count;
    double half = 0.5 * fabs(circuit_trace_current(w, load));
    bool *met = arena_alloc(w->v->c->arena, n, sizeof *met);
    if (circuit_part_dropping(&w->c->element[load]))
        return true;
    for (size_t i = 0; i < n; i++) {
        if (!circuit_part_dropping(&w->c->element[i]) ||
            fabs(circuit_trace_current(w, i)) < half)
            continue;
        circuit_trace_loads(w, i, true, met);
        bool before = met[load];
        circuit_trace_loads(w, i, false, met);
        if (before || met[load])
            return true;
    }
    return false;
}

/* Whether the circuit's own limit is asked about, at this load. */
static bool ask_limit(struct circuit_work *w, size_t load,
                      const struct lost *lost) {
    struct drop_limit limit = drop_limit_stated(w->v, w->b, w->variant);
    if (!drop_limit_is_odd(&limit, lost->from.volt->nominal))
        return false;
    struct requirement r = circuit_rule(w, load, "drop-limit");
    r.part = NULL;
    r.what = "drop limit";
    r.trouble = drop_limit_odd(w->v->c->arena, &limit, lost->from.volt);
    r.cure = DROP_LIMIT_CURE;
    r.flag = true;
    r.at = block_place(w->v, w->b, "drop limit");
    block_require(w->v, r);
    return true;
}

/* In the state in which it is nearest to its limit, or furthest beyond. */
static void require_drop(struct circuit_work *w, size_t load, bool *asked) {
    struct lost worst = {.volt = NULL};
    for (size_t s = 0; s < w->c->state_count; s++) {
        struct lost lost = lost_in(w, load, s);
        if (lost.volt == NULL || lost.limit == NULL || is_dropped(w, load))
            continue;
        if (is_safety(w, load))
            note_safety_drop(w, &lost);
        if (worst.volt == NULL || share_lost(&lost) > share_lost(&worst))
            worst = lost;
    }
    if (worst.volt == NULL)
        return;
    struct requirement r = circuit_rule(w, load, "drop");
    r.what = arena_printf(w->v->c->arena, "lost there and back, %s to %s%s",
                          worst.from.name, w->part[load].name,
                          circuit_worst_words(w, worst.state));
    r.left = worst.volt;
    r.right = worst.limit;
    *asked = *asked || ask_limit(w, load, &worst);
    r.source = worst.source;
    if (circuit_solve_state(w, worst.state, NULL))
        r.cure = contact_cure(w, load, &worst);
    if (r.cure == NULL)
        r.cure = "thicker wire, better contacts, or a relay near the load";
    block_require(w->v, r);
}

/* Whether a supply that does not limit itself stands by in the state that is
 * solved: it gives what another is short of. */
static bool is_held(const struct circuit_work *w) {
    for (size_t s = w->c->element_count; s < w->part_count; s++)
        if (w->part[s].law == LAW_SUPPLY && w->in_net[s] != SIZE_MAX)
            return true;
    return false;
}

/* What a source that limits itself is short of its voltage at its rated output,
 * and the load that bears least of it. */
struct short_of {
    const struct quantity *volt, *limit; /* NULL: nothing, or no load */
    const char *source;
    size_t state, load;
};

static struct short_of short_in(struct circuit_work *w, size_t supply,
                                size_t state) {
    struct short_of found = {.state = state};
    if (circuit_worst_is_short(&w->c->state[state]) ||
        !circuit_solve_state(w, state, NULL) || is_held(w) ||
        w->in_net[supply] == SIZE_MAX)
        return found;
    for (size_t i = 0; i < w->c->element_count; i++) {
        const char *source;
        if (w->part[i].law == LAWS || w->c->element[i].part != CIRCUIT_LOAD ||
            circuit_trace_supply(w, i) != supply)
            continue;
        const struct quantity *limit =
            limit_of(w, i, w->part[supply].figure[0], &source);
        if (limit == NULL ||
            (found.limit != NULL &&
             range_ends(limit).low >= range_ends(found.limit).low))
            continue;
        found.limit = limit;
        found.source = source;
        found.load = i;
    }
    const struct circuit_output output = {
        .result = RESULT_SAG,
        .state = state,
        .field = {"sag", "V", "below its voltage at its rated output"},
        .supply = supply - w->c->element_count};
    const char *name =
        arena_printf(w->v->c->arena, "sag of %s", w->part[supply].name);
    struct value value = circuit_block_result(w->v, w->b, &output,
                                              text_of(name), w->variant, NULL);
    found.volt = value.type == VALUE_QUANTITY ? value.quantity : NULL;
    return found;
}

/* In the state in which it is shortest. Without a battery beside it the voltage
 * of a source gives way as soon as more is taken than its rated output. */
static void require_output(struct circuit_work *w, size_t supply) {
    struct short_of worst = {.volt = NULL};
    for (size_t s = 0; s < w->c->state_count; s++) {
        struct short_of one = short_in(w, supply, s);
        if (one.volt != NULL && one.limit != NULL &&
            range_ends(one.volt).high > 0 &&
            (worst.volt == NULL ||
             range_ends(one.volt).high > range_ends(worst.volt).high))
            worst = one;
    }
    if (worst.volt == NULL)
        return;
    struct arena *a = w->v->c->arena;
    struct requirement r = circuit_rule(w, worst.load, "drop");
    r.what = arena_printf(
        a, "%s gives way at its full %s, feeding %s%s", w->part[supply].name,
        figure_of(a, w->part[supply].figure[2], FIGURE_PLAIN),
        w->part[worst.load].name, circuit_worst_words(w, worst.state));
    r.left = worst.volt;
    r.right = worst.limit;
    r.source = worst.source;
    r.cure = "a source that gives more, a battery beside it, or less load";
    block_require(w->v, r);
}

/* Of what feeds a load in the state at hand; 0: nothing does. */
static double source_volt(struct circuit_work *w, size_t load) {
    size_t supply = circuit_trace_supply(w, load);
    return supply == SIZE_MAX ? 0 : range_ends(origin_of(w, supply).volt).high;
}

/* The most at its terminals, by the solution, against the voltage of its
 * figures. It may get less behind a resistor, but not where its supply has no
 * more. */
static void require_voltage(struct circuit_work *w, size_t load) {
    const struct circuit_piece *p = &w->part[load];
    const struct quantity *at = p->figure_count == 2 ? p->figure[1] : NULL;
    double most = 0, any = 0;
    for (size_t s = 0; s < w->c->state_count; s++)
        if (circuit_solve_state(w, s, NULL)) {
            most = fmax(most, fabs(w->solution.volt[w->from[load]] -
                                   w->solution.volt[w->to[load]]));
            any = fmax(any, source_volt(w, load));
        }
    const struct block *block =
        w->c->element[load].part == CIRCUIT_LOAD ? block_of(w, load) : NULL;
    bool starter = electrical_cranks(w->v, block, w->variant);
    if (at == NULL || starter)
        return;
    bool much = most > SENSE_VOLT_MOST * range_ends(at).high;
    bool little =
        block != NULL && any > 0 && range_ends(at).low > SENSE_VOLT_MOST * any;
    if (!much && !little)
        return;
    struct requirement r = circuit_rule(w, load, "voltage");
    r.what = "voltage of a load";
    r.trouble = arena_printf(
        w->v->c->arena, "%s gets %.1f V and its figures are of %s", p->name,
        most, figure_of(w->v->c->arena, at, FIGURE_PLAIN));
    r.cure = "a load for this voltage, or its figures at it";
    r.flag = true;
    block_require(w->v, r);
}

void circuit_drop_require(struct circuit_work *w) {
    bool asked = false;
    for (size_t s = w->c->element_count; s < w->part_count; s++)
        if (circuit_solve_output(w, s) != NULL)
            require_output(w, s);
    for (size_t i = 0; i < w->c->element_count; i++) {
        enum circuit_part kind = w->c->element[i].part;
        if (w->part[i].law == LAWS ||
            (kind != CIRCUIT_LOAD && kind != CIRCUIT_COIL))
            continue;
        require_voltage(w, i);
        if (kind == CIRCUIT_LOAD)
            require_drop(w, i, &asked);
    }
}

/* circuit_unfused.c - wire of a circuit up to its first fuse.
 *
 * It is looked for from what feeds a short with all that it has; from what
 * limits its own current, for which a wire that carries this is as good as one
 * with a fuse; and from the minus of what is not grounded at all. */
#include "values/circuit_unfused.h"

#include "base/arena.h"
#include "calc/fuse.h"
#include "values/circuit_fault.h"
#include "values/circuit_rating.h"
#include "values/circuit_trace.h"
#include "values/electrical.h"
#include "values/range.h"
#include "values/self_limit.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

/* Share of what a starter draws from which on a wire is one of its cables: of
 * four batteries side by side each gives a quarter. Common practice, no source.
 */
#define START_PART 0.2
/* Share that counts as all of it. */
#define START_WHOLE 0.99
/* Of the cross-section of the cable that carries the whole start: a thinner
 * wire that helps is laid out for charging, and is fused as a link of two
 * batteries is. A little less than half, for two of the next gauges side by
 * side. Common practice, no source. */
#define HELP_AREA 0.45

enum look { LOOK_HOT, LOOK_LIMITED, LOOK_FLOATING };

struct unfused {
    const struct circuit_work *w;
    struct arena *arena;
    /* by node: wire without a fuse from a hot post up to there, m; NULL in
     * `length` at a post */
    bool *reached;
    double *far;
    const struct quantity **length;
    size_t *source; /* the supply */
    size_t *came;   /* the part by which a node is reached; none at a post */
    bool *bare;     /* not sheathed all the way */
    bool *free;     /* by part: its far end counts as a source */
    bool *told;     /* by part: that it has no fuse */
    size_t *helps;  /* by part: the cable of a starter that it is too thin
                       beside, plus 1; 0: none */
    enum look look;
    const struct quantity **output; /* of those, by part: what may reach it */
};

bool circuit_unfused_ends(const struct circuit_work *w, size_t part) {
    if (part >= w->c->element_count || w->part[part].law == LAWS)
        return false;
    enum circuit_part kind = w->c->element[part].part;
    return kind == CIRCUIT_FUSE || kind == CIRCUIT_BREAKER;
}

/* A way for a fault that no fuse cuts. */
static bool leads(const struct circuit_work *w, size_t part) {
    return part < w->c->element_count && circuit_fault_carries(w, part) &&
           !circuit_unfused_ends(w, part);
}

void circuit_unfused_zone(const struct circuit_work *w, size_t node,
                          bool *zone) {
    memset(zone, 0, w->node_count * sizeof *zone);
    zone[node] = true;
    for (bool grown = true; grown;) {
        grown = false;
        for (size_t i = 0; i < w->c->element_count; i++) {
            if (!leads(w, i) || zone[w->from[i]] == zone[w->to[i]])
                continue;
            zone[w->from[i]] = zone[w->to[i]] = grown = true;
        }
    }
}

static bool is_cranking(const struct circuit_work *w, struct text name,
                        const char *kind) {
    return electrical_cranks(w->v, values_block(w->v, w->b->scope, name, kind),
                             w->variant);
}

static bool is_cranked_load(const struct circuit_work *w, size_t part) {
    const struct circuit_element *e = &w->c->element[part];
    return w->part[part].law != LAWS && e->part == CIRCUIT_LOAD &&
           is_cranking(w, e->word[0], "load");
}

/* An engine is cranked by batteries; where there is none, by what there is.
 * NULL: they feed nothing. */
static struct circuit_fault *cranking_net(const struct unfused *g,
                                          struct circuit_work *w) {
    bool *open = arena_alloc(g->arena, w->part_count, sizeof *open);
    bool any = false;
    for (size_t s = w->c->element_count; s < w->part_count; s++) {
        open[s] = w->part[s].law != LAWS && circuit_solve_output(w, s) != NULL;
        any = any || (w->part[s].law != LAWS && !open[s]);
    }
    return circuit_fault_open(w, FAULT_NOMINAL, any ? open : NULL);
}

static double area_of(const struct unfused *g, size_t wire) {
    return g->w->part[wire].run->ampacity.use.size->area;
}

/* The cables of one starter, whose draw was put on: wires that carry the start
 * itself, and not all that hangs on their studs. */
static void free_cables(const struct unfused *g,
                        const struct circuit_fault *f) {
    const struct circuit_work *w = g->w;
    size_t whole = SIZE_MAX;
    for (size_t i = 0; i < w->c->element_count; i++)
        if (w->part[i].law == LAW_WIRE &&
            circuit_fault_share(f, i) >= START_WHOLE &&
            (whole == SIZE_MAX || area_of(g, i) > area_of(g, whole)))
            whole = i;
    for (size_t i = 0; i < w->c->element_count; i++) {
        double share =
            w->part[i].law == LAW_WIRE ? circuit_fault_share(f, i) : 0;
        if (share < START_PART)
            continue;
        if (share >= START_WHOLE || whole == SIZE_MAX ||
            area_of(g, i) >= HELP_AREA * area_of(g, whole))
            g->free[i] = true;
        else
            g->helps[i] = whole + 1;
    }
}

/* A cable of a starter runs without a fuse. Where no load of the circuit is
 * cranked, a wire whose own block says that it is for cranking. */
static void find_cranking(const struct unfused *g, struct circuit_work *w) {
    struct circuit_fault *f = NULL;
    bool cranked = false;
    for (size_t k = 0; k < w->c->element_count; k++) {
        if (!is_cranked_load(w, k))
            continue;
        cranked = true;
        if (f == NULL)
            f = cranking_net(g, w);
        if (f == NULL)
            return;
        circuit_fault_draw(f, w->from[k], w->to[k]);
        free_cables(g, f);
    }
    for (size_t i = 0; i < w->c->element_count && !cranked; i++)
        g->free[i] = w->part[i].law == LAW_WIRE &&
                     is_cranking(w, w->c->element[i].word[0], "wire");
}

/* What the sources that limit themselves give together into each wire that no
 * fuse parts from them, and the wires that carry it. */
static void find_output(const struct unfused *g) {
    const struct circuit_work *w = g->w;
    bool *zone = arena_alloc(g->arena, w->node_count, sizeof *zone);
    for (size_t s = w->c->element_count; s < w->part_count; s++) {
        const struct quantity *output =
            w->part[s].law == LAWS ? NULL : circuit_solve_output(w, s);
        if (output == NULL)
            continue;
        circuit_unfused_zone(w, circuit_trace_hot_post(w, s), zone);
        for (size_t i = 0; i < w->c->element_count; i++)
            if (w->part[i].law == LAW_WIRE && zone[w->from[i]])
                g->output[i] = g->output[i] == NULL
                                   ? output
                                   : quantity_binary(&w->v->maker, QUANTITY_ADD,
                                                     g->output[i], output);
    }
    for (size_t i = 0; i < w->c->element_count; i++)
        if (g->output[i] != NULL &&
            requirement_at_most(&w->v->maker, g->output[i],
                                circuit_rating_ampacity(w, i)))
            g->free[i] = true;
}

static const struct quantity *longer(const struct unfused *g, size_t part,
                                     const struct quantity *length) {
    const struct circuit_piece *p = &g->w->part[part];
    if (p->law != LAW_WIRE || g->free[part])
        return length;
    return length == NULL ? p->figure[0]
                          : quantity_binary(&g->w->v->maker, QUANTITY_ADD,
                                            length, p->figure[0]);
}

static double most_of(const struct quantity *q) {
    return q == NULL ? 0 : range_ends(q).high;
}

/* One step from `from` to `to`; true when it is the shortest so far. */
static bool step(const struct unfused *g, size_t part, size_t from, size_t to) {
    if (!g->reached[from])
        return false;
    const struct circuit_piece *p = &g->w->part[part];
    double far =
        g->far[from] +
        (p->law == LAW_WIRE && !g->free[part] ? most_of(p->figure[0]) : 0);
    if (g->reached[to] && g->far[to] <= far)
        return false;
    g->reached[to] = true;
    g->far[to] = far;
    g->source[to] = g->source[from];
    g->came[to] = part;
    g->bare[to] =
        g->bare[from] || (p->law == LAW_WIRE && !circuit_part_sheathed(p));
    g->length[to] = longer(g, part, g->length[from]);
    return true;
}

/* Whether ways begin at a supply, and where. */
static bool begins(const struct unfused *g, size_t supply, size_t *post) {
    const struct circuit_work *w = g->w;
    bool floating = g->look == LOOK_FLOATING;
    *post = floating ? w->from[supply] : circuit_trace_hot_post(w, supply);
    if (w->part[supply].law == LAWS)
        return false;
    return floating ? circuit_trace_floats(w, supply) &&
                          circuit_solve_output(w, supply) == NULL
                    : (circuit_solve_output(w, supply) != NULL) ==
                          (g->look == LOOK_LIMITED);
}

/* Shortest ways from the posts that are not grounded, past all that is no fuse
 * and no load. The other posts end them. */
static void find_unfused(const struct unfused *g) {
    const struct circuit_work *w = g->w;
    bool *post = arena_alloc(g->arena, w->node_count, sizeof *post);
    for (size_t s = w->c->element_count; s < w->part_count; s++) {
        size_t from;
        if (begins(g, s, &from)) {
            g->reached[from] = true;
            g->source[from] = s;
        } else if (w->part[s].law != LAWS && g->look == LOOK_LIMITED) {
            post[from] = true; /* judged from there before */
        }
    }
    for (bool moved = true; moved;) {
        moved = false;
        for (size_t i = 0; i < w->c->element_count; i++) {
            if (!leads(w, i))
                continue;
            if (!post[w->from[i]])
                moved = step(g, i, w->from[i], w->to[i]) || moved;
            if (w->part[i].law != LAW_DIODE && !post[w->to[i]])
                moved = step(g, i, w->to[i], w->from[i]) || moved;
        }
    }
}

static const char *cure_of(const struct unfused *g, size_t wire, size_t supply,
                           const struct fuse_place *rule) {
    const struct circuit_work *w = g->w;
    const struct fuse_place *sheathed =
        fuse_place_find(circuit_trace_is_battery(w, supply), true);
    const char *fuse = arena_printf(g->arena, "a fuse before %s, within %s%s%s",
                                    w->part[wire].name, rule->words,
                                    sheathed == rule ? "" : ", or within ",
                                    sheathed == rule ? "" : sheathed->words);
    if (g->helps[wire] > 0)
        return arena_printf(
            g->arena,
            "%s; or, to crank through it, a cable at least half as thick as %s",
            fuse, w->part[g->helps[wire] - 1].name);
    if (g->look == LOOK_FLOATING)
        return arena_printf(g->arena,
                            "%s, or a double-pole breaker: neither post of %s "
                            "is grounded",
                            fuse, w->part[supply].name);
    if (g->look == LOOK_LIMITED)
        return arena_printf(
            g->arena, "%s, or a wire that carries the rated output there, %s",
            fuse, figure_of(g->arena, g->output[wire], FIGURE_HIGH));
    struct text chemistry = block_text(w->v, circuit_solve_supply(w, supply),
                                       "chemistry", w->variant);
    return !text_is(chemistry, "none")
               ? fuse
               : arena_printf(g->arena,
                              "%s, or write the rated output: of %s, if %s "
                              "carries that",
                              fuse, w->part[supply].name, w->part[wire].name);
}

/* A wire that carries all that the sources on it may give. */
static void keep_output(const struct unfused *g, size_t wire, size_t supply) {
    const struct circuit_work *w = g->w;
    self_limit_holds(
        w->v,
        (struct requirement){
            .block = w->b,
            .variant = w->variant,
            .what = arena_printf(g->arena,
                                 "rated output of %s, into %s without a fuse",
                                 w->part[supply].name, w->part[wire].name),
            .part = w->part[wire].name,
            .at = w->part[wire].element->at},
        g->output[wire], circuit_rating_ampacity(w, wire));
}

/* The end of a wire at which the way enters it; SIZE_MAX: none does. */
static size_t entry_of(const struct unfused *g, size_t wire) {
    size_t from = g->w->from[wire], to = g->w->to[wire];
    if (!g->reached[from] || (g->reached[to] && g->far[to] < g->far[from]))
        from = to;
    return g->reached[from] ? from : SIZE_MAX;
}

static const struct fuse_place *place_of_wire(const struct unfused *g,
                                              size_t wire, size_t from) {
    return fuse_place_find(circuit_trace_is_battery(g->w, g->source[from]),
                           !g->bare[from] &&
                               circuit_part_sheathed(&g->w->part[wire]));
}

/* The way from a post to the far end of a wire, and how long it may be: in the
 * unit of the rule, "7 in" is what goes into the caution. */
static const struct quantity *way_to(const struct unfused *g, size_t wire,
                                     size_t from,
                                     const struct quantity **most) {
    const struct circuit_work *w = g->w;
    const struct unit *inch = unit_find("in", 2);
    struct quantity *limit = quantity_exact(
        &w->v->maker, place_of_wire(g, wire, from)->most, inch->dim, inch);
    limit->decimals = 0;
    *most = limit;
    struct quantity *length = quantity_binary(&w->v->maker, QUANTITY_MULTIPLY,
                                              longer(g, wire, g->length[from]),
                                              quantity_number(&w->v->maker, 1));
    length->unit = w->v->units == UNIT_SI ? unit_find("m", 1) : inch;
    if (w->v->units != UNIT_SI)
        length->decimals = 0;
    return length;
}

/* The wire in which the way that enters another at `from` has grown too long;
 * SIZE_MAX: it has not. */
static size_t find_too_long(const struct unfused *g, size_t from) {
    const struct circuit_work *w = g->w;
    size_t first = SIZE_MAX;
    for (size_t node = from; g->length[node] != NULL;) {
        size_t part = g->came[node];
        size_t before = w->from[part] == node ? w->to[part] : w->from[part];
        if (w->part[part].law == LAW_WIRE && !g->free[part]) {
            const struct quantity *most;
            const struct quantity *length = way_to(g, part, before, &most);
            if (!requirement_at_most(&w->v->maker, length, most))
                first = part;
        }
        node = before;
    }
    return first;
}

/* Those behind the wire in which the way without a fuse grows too long are the
 * same slip, unless it is set aside. */
static void require_fuse(const struct unfused *g, size_t wire) {
    const struct circuit_work *w = g->w;
    size_t from = entry_of(g, wire);
    if (from == SIZE_MAX || g->told[wire])
        return;
    size_t supply = g->source[from];
    if (g->free[wire]) {
        if (g->look == LOOK_LIMITED && g->output[wire] != NULL)
            keep_output(g, wire, supply);
        return;
    }
    const struct fuse_place *rule = place_of_wire(g, wire, from);
    const struct quantity *most;
    const struct quantity *length = way_to(g, wire, from, &most);
    size_t first = find_too_long(g, from);
    g->told[wire] =
        first == SIZE_MAX && !requirement_at_most(&w->v->maker, length, most);
    block_require(
        w->v,
        (struct requirement){
            .block = w->b,
            .variant = w->variant,
            .rule = "H05",
            .what = arena_printf(g->arena, "wire without a fuse, %s %s to %s",
                                 w->part[supply].name,
                                 g->look == LOOK_FLOATING ||
                                         circuit_trace_minus_hot(w, supply)
                                     ? "\xE2\x88\x92"
                                     : "+",
                                 w->part[wire].name),
            .part = w->part[wire].name,
            .left = length,
            .right = most,
            .relation = RELATION_AT_MOST,
            .source =
                g->look == LOOK_FLOATING ? FUSE_EACH_UNGROUNDED : rule->source,
            .flag = g->look == LOOK_FLOATING,
            .cure = cure_of(g, wire, supply, rule),
            .same = {first == SIZE_MAX ? NULL : "H05", w->b,
                     first == SIZE_MAX ? NULL : w->part[first].name},
            .at = w->part[wire].element->at});
}

static void look_from(struct unfused *g, enum look look) {
    const struct circuit_work *w = g->w;
    g->look = look;
    g->reached = arena_alloc(g->arena, w->node_count, sizeof *g->reached);
    g->far = arena_alloc(g->arena, w->node_count, sizeof *g->far);
    g->length = arena_alloc(g->arena, w->node_count, sizeof(*g->length));
    g->source = arena_alloc(g->arena, w->node_count, sizeof *g->source);
    g->came = arena_alloc(g->arena, w->node_count, sizeof *g->came);
    g->bare = arena_alloc(g->arena, w->node_count, sizeof *g->bare);
    find_unfused(g);
    for (size_t i = 0; i < w->c->element_count; i++)
        if (w->part[i].law == LAW_WIRE)
            require_fuse(g, i);
}

void circuit_unfused_require(struct circuit_work *w) {
    struct unfused g = {.w = w, .arena = w->v->c->arena};
    bool limited = false, floating = false;
    for (size_t s = w->c->element_count; s < w->part_count; s++) {
        bool on = w->part[s].law != LAWS;
        limited = limited || (on && circuit_solve_output(w, s) != NULL);
        floating = floating || (on && circuit_trace_floats(w, s));
    }
    g.free = arena_alloc(g.arena, w->part_count, sizeof *g.free);
    g.told = arena_alloc(g.arena, w->part_count, sizeof *g.told);
    g.helps = arena_alloc(g.arena, w->part_count, sizeof *g.helps);
    g.output = arena_alloc(g.arena, w->part_count, sizeof(*g.output));
    find_cranking(&g, w);
    look_from(&g, LOOK_HOT);
    /* What is asked about a minus must not stand for what is refused. */
    if (limited) {
        bool *free = g.free;
        g.free = arena_same(g.arena, g.free, w->part_count, sizeof *g.free);
        find_output(&g);
        look_from(&g, LOOK_LIMITED);
        g.free = free;
    }
    if (floating)
        look_from(&g, LOOK_FLOATING);
}

/* circuit_guard.c - what guards a circuit against a short: a fuse near each
 * source, able to break what the sources can feed, opened by a short anywhere
 * behind it. */
#include "values/circuit_guard.h"

#include "base/arena.h"
#include "calc/fuse.h"
#include "values/circuit_fault.h"
#include "values/circuit_rating.h"
#include "values/circuit_trace.h"
#include "values/electrical.h"
#include "values/range.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

/* Share of a fault below which a fuse has no part in it. */
#define PART_OF_FAULT 0.01
enum { INTERRUPT_UNKNOWN = 1000 }; /* A: hazard catalogue, H04b */

struct guard {
    const struct circuit_work *w;
    struct arena *arena;
    /* by node: wire without a fuse from a hot post up to there, m; NULL in
     * `length` at a post */
    bool *reached;
    double *far;
    const struct quantity **length;
    size_t *source; /* the supply */
    bool *bare;     /* not sheathed all the way */
    bool *cranks;   /* by part: a starter's; its far end counts as a source */
    struct circuit_fault *most;
    const struct circuit_fault_ways *least;
};

static bool is_fuse(const struct circuit_work *w, size_t part) {
    if (part >= w->c->element_count || w->part[part].law == LAWS)
        return false;
    enum circuit_part kind = w->c->element[part].part;
    return kind == CIRCUIT_FUSE || kind == CIRCUIT_BREAKER;
}

/* A way for a fault that no fuse cuts. */
static bool leads(const struct circuit_work *w, size_t part) {
    return part < w->c->element_count && circuit_fault_carries(w, part) &&
           !is_fuse(w, part);
}

static bool is_cranking(const struct circuit_work *w, struct text name,
                        const char *kind) {
    return electrical_cranks(w->v, values_block(w->v, w->b->scope, name, kind),
                             w->variant);
}

/* A cable of a starter runs without a fuse: what the paths, as they are
 * written, lead to a load or through a wire whose duty is cranking. */
static void find_cranking(const struct guard *g) {
    const struct circuit_work *w = g->w;
    for (size_t i = 0; i < w->c->element_count; i++) {
        const struct circuit_element *e = &w->c->element[i];
        g->cranks[i] =
            w->part[i].law != LAWS &&
            ((e->part == CIRCUIT_WIRE && is_cranking(w, e->word[0], "wire")) ||
             (e->part == CIRCUIT_LOAD && is_cranking(w, e->word[0], "load")));
    }
    for (bool grown = true; grown;) {
        grown = false;
        for (size_t k = 0; k < w->c->element_count; k++)
            for (size_t i = 0; i < w->c->element_count && g->cranks[k]; i++)
                if (!g->cranks[i] && w->to[i] == w->from[k] && leads(w, i))
                    grown = g->cranks[i] = true;
    }
}

static const struct quantity *longer(const struct guard *g, size_t part,
                                     const struct quantity *length) {
    const struct circuit_piece *p = &g->w->part[part];
    if (p->law != LAW_WIRE || g->cranks[part])
        return length;
    return length == NULL ? p->figure[0]
                          : quantity_binary(&g->w->v->maker, QUANTITY_ADD,
                                            length, p->figure[0]);
}

static double most_of(const struct quantity *q) {
    return q == NULL ? 0 : range_ends(q).high;
}

/* One step from `from` to `to`; true when it is the shortest so far. */
static bool step(struct guard *g, size_t part, size_t from, size_t to) {
    if (!g->reached[from])
        return false;
    const struct circuit_piece *p = &g->w->part[part];
    double far =
        g->far[from] +
        (p->law == LAW_WIRE && !g->cranks[part] ? most_of(p->figure[0]) : 0);
    if (g->reached[to] && g->far[to] <= far)
        return false;
    g->reached[to] = true;
    g->far[to] = far;
    g->source[to] = g->source[from];
    g->bare[to] =
        g->bare[from] || (p->law == LAW_WIRE && !circuit_part_sheathed(p));
    g->length[to] = longer(g, part, g->length[from]);
    return true;
}

/* Shortest ways from the posts that are not grounded, past all that is no fuse
 * and no load. The other posts end them. */
static void find_unfused(struct guard *g) {
    const struct circuit_work *w = g->w;
    for (size_t s = w->c->element_count; s < w->part_count; s++) {
        if (w->part[s].law == LAWS)
            continue;
        g->reached[circuit_trace_hot_post(w, s)] = true;
        g->source[circuit_trace_hot_post(w, s)] = s;
    }
    for (bool moved = true; moved;) {
        moved = false;
        for (size_t i = 0; i < w->c->element_count; i++) {
            if (!leads(w, i))
                continue;
            moved = step(g, i, w->from[i], w->to[i]) || moved;
            if (w->part[i].law != LAW_DIODE)
                moved = step(g, i, w->to[i], w->from[i]) || moved;
        }
    }
}

static bool is_battery(const struct circuit_work *w, size_t supply) {
    const struct block *b = values_block(
        w->v, w->b->scope, text_of(w->part[supply].name), "supply");
    struct text chemistry = block_text(w->v, b, "chemistry", w->variant);
    return chemistry.len > 0 && !text_is(chemistry, "none");
}

/* The wire in which the way without a fuse grows too long; those behind it are
 * the same slip. */
static void require_fuse(const struct guard *g, size_t wire) {
    const struct circuit_work *w = g->w;
    size_t from = w->from[wire];
    if (!g->reached[from] ||
        (g->reached[w->to[wire]] && g->far[w->to[wire]] < g->far[from]))
        from = w->to[wire];
    if (!g->reached[from] || g->cranks[wire])
        return;
    size_t supply = g->source[from];
    const struct fuse_place *rule = fuse_place_find(
        is_battery(w, supply),
        !g->bare[from] && circuit_part_sheathed(&w->part[wire]));
    const struct unit *inch = unit_find("in", 2);
    struct quantity *most =
        quantity_exact(&w->v->maker, rule->most, inch->dim, inch);
    most->decimals = 0;
    /* In the unit of the rule: "7 in" is what goes into the caution. */
    struct quantity *length = quantity_binary(&w->v->maker, QUANTITY_MULTIPLY,
                                              longer(g, wire, g->length[from]),
                                              quantity_number(&w->v->maker, 1));
    length->unit = w->v->units == UNIT_SI ? unit_find("m", 1) : inch;
    if (w->v->units != UNIT_SI)
        length->decimals = 0;
    if (g->length[from] != NULL &&
        !requirement_at_most(&w->v->maker, g->length[from], most))
        return;
    block_require(
        w->v, (struct requirement){
                  .block = w->b,
                  .variant = w->variant,
                  .rule = "H05",
                  .what = arena_printf(
                      g->arena, "wire without a fuse, %s %s to %s",
                      w->part[supply].name,
                      circuit_trace_minus_hot(w, supply) ? "\xE2\x88\x92" : "+",
                      w->part[wire].name),
                  .part = w->part[wire].name,
                  .left = length,
                  .right = most,
                  .relation = RELATION_AT_MOST,
                  .source = rule->source,
                  .cure = arena_printf(g->arena, "a fuse before %s, within %s",
                                       w->part[wire].name, rule->words),
                  .at = w->part[wire].element->at});
}

static struct quantity *current_of(const struct guard *g, double ampere) {
    return block_table(g->w->v, ampere, (struct ends){ampere, ampere}, "A", "",
                       "open voltage over the resistance that feeds the short");
}

static double highest_volt(const struct guard *g) {
    double volt = 0;
    for (size_t i = 0; i < g->most->net.part_count; i++)
        if (g->most->net.part[i].law.law == LAW_SUPPLY)
            volt = fmax(volt, g->most->net.part[i].law.figure[0]);
    return volt;
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

/* What the fuse block itself works out, from a source and a wire alone. */
static double of_block(const struct guard *g, const struct block *fuse,
                       const char *field, double absent) {
    struct slot *s = fuse == NULL ? NULL : names_field(g->w->v, fuse, field);
    const struct value *value =
        s == NULL ? NULL : evaluate_slot(g->w->v, s, g->w->variant);
    if (value == NULL || value->type != VALUE_QUANTITY)
        return absent;
    struct ends e = range_ends(value->quantity);
    return absent > 0 ? e.low : e.high;
}

/* The block counts the wire ahead of the fuse, the circuit what its paths say.
 */
static const char *breaking_cure(const struct guard *g,
                                 const struct block *block, size_t fuse) {
    static const char style[] =
        "a style that breaks more, such as class T, or a fuse ahead of it";
    const struct circuit_work *w = g->w;
    const struct value *place =
        block == NULL ? NULL : block_setting(w->v, block, "place", w->variant);
    bool at_post = false;
    for (size_t s = w->c->element_count; s < w->part_count; s++)
        at_post =
            at_post || (w->part[s].law != LAWS && w->to[s] == w->from[fuse]);
    if (place == NULL || place->type != VALUE_QUANTITY || !at_post)
        return style;
    return arena_printf(g->arena,
                        "the wire of %s that leads to it, written before it in "
                        "its path, or %s",
                        figure_of(g->arena, place->quantity, FIGURE_PLAIN),
                        style);
}

static void require_breaking(struct guard *g, size_t fuse) {
    const struct circuit_work *w = g->w;
    struct circuit_breaking can =
        circuit_rating_breaks(w, fuse, highest_volt(g));
    double ampere = to_break(g, fuse);
    double most =
        can.limit == NULL ? INTERRUPT_UNKNOWN : range_ends(can.limit).low;
    /* A fuse block whose own figure fails has said so. */
    if (of_block(g, can.block, "fault.high", 0) > most ||
        (can.limit == NULL && ampere <= most))
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
                "a short behind %s may take %s and its interrupting rating is "
                "not known",
                w->part[fuse].name, figure_of(g->arena, fault, FIGURE_HIGH)),
            .cure = can.limit != NULL ? breaking_cure(g, can.block, fuse)
                    : can.block != NULL
                        ? "write interrupt: from the maker's data"
                        : "name its style, or write: breaks 2 kA",
            .at = w->part[fuse].element->at});
}

/* Nodes that a fuse does not part from this one. */
static void find_zone(const struct circuit_work *w, size_t node, bool *zone) {
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
        find_zone(w, minus_hot ? w->to[i] : w->from[i], zone);
        if (zone[w->from[fuse]] == zone[w->to[fuse]])
            continue;
        for (size_t k = 0; k < g->least->count; k++) {
            struct circuit_fault *way = g->least->way[k];
            double all = circuit_fault_between(way, w->from[i], w->to[i]);
            double own = circuit_fault_through(way, fuse);
            if (all <= 0 || own < PART_OF_FAULT * all ||
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
    const struct block *block =
        values_block(w->v, w->b->scope, w->c->element[fuse].name, "fuse");
    double needed = 3.5 * range_ends(rating).high;
    if (load == SIZE_MAX || of_block(g, block, "fault.low", INFINITY) < needed)
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
            .source = "from memory: blade fuses take up to half a second at "
                      "350 %",
            .cure = "a smaller fuse or a thicker wire",
            .flag = true,
            .at = w->part[fuse].element->at});
}

void circuit_guard_require(struct circuit_work *w) {
    circuit_solve_all_on(w);
    struct arena *a = w->v->c->arena;
    struct guard g = {.w = w, .arena = a};
    g.reached = arena_alloc(a, w->node_count, sizeof *g.reached);
    g.far = arena_alloc(a, w->node_count, sizeof *g.far);
    g.length = arena_alloc(a, w->node_count, sizeof(*g.length));
    g.source = arena_alloc(a, w->node_count, sizeof *g.source);
    g.bare = arena_alloc(a, w->node_count, sizeof *g.bare);
    g.cranks = arena_alloc(a, w->part_count, sizeof *g.cranks);
    find_cranking(&g);
    find_unfused(&g);
    for (size_t i = 0; i < w->c->element_count; i++)
        if (w->part[i].law == LAW_WIRE)
            require_fuse(&g, i);
    g.most = circuit_fault_most(w);
    g.least = circuit_fault_least(w);
    if (g.most == NULL || g.least == NULL)
        return;
    for (size_t i = 0; i < w->c->element_count; i++) {
        if (!is_fuse(w, i) || w->part[i].rating == NULL)
            continue;
        require_breaking(&g, i);
        require_opening(&g, i);
    }
}

/* circuit_net.c - nodal analysis: Newton's iteration, the adjoint. */
#include "calc/circuit_net.h"

#include "calc/circuit_chain.h"
#include "calc/circuit_matrix.h"

#include <math.h>
#include <string.h>

/* Rounds of chords at the start, and again when tangents did not do it; from
 * when on a voltage is stopped on its way. */
enum {
    ROUNDS_MAX = 300,
    CHORDS = 6,
    STOPS_FROM = 20,
    AGAIN_FROM = 60,
    AGAIN_TO = 180,
    WARM_ROUNDS = 12
};
#define CLOSE 1e-11 /* of the voltage: what rounding leaves is less */
#define TINY 1e-11  /* V */
#define NEAR 1e8    /* times that: rounds without new tangents */
#define SHRINKS 0.1 /* by less than that they go on */

/* What stands in the caller's memory. */
enum { NOTHING, ORDERED, FACTORED };

/* One of the iteration. Warm: it began at an earlier solution. */
struct round {
    bool first, warm, near;
};

/* Slices of it. What is by chain is of one part of the matrix; `outer` nodes
 * are those in it. */
struct work {
    size_t n;      /* nodes */
    double *ready; /* [1] NOTHING; ORDERED: the order was found; FACTORED:
                      the matrix is that of the tangents at the solution, to
                      1e-4 of each */
    double *volt;  /* by node */
    double *ends, *right; /* volts by outer node; by step, what goes in and
                             comes out */
    double *current;      /* by part */
    double *tangent;      /* by part of a chain of several, at the solution */
    double *at, *through; /* by chain: where its law is taken linear */
    double *chord;        /* by chain: a chord this time, not a tangent */
    double *slope;        /* by chain: of the lines in the matrix */
    struct circuit_chains c;
    double *cells, *index; /* of the matrix */
    struct circuit_matrix m;
};

size_t circuit_net_room(size_t n, size_t parts) {
    return 1 + 3 * n + 6 * parts + circuit_chain_index(n, parts) +
           circuit_matrix_cells(n) + circuit_matrix_index(n);
}

static void put_matrix(struct work *w) {
    w->m = circuit_matrix_at(w->c.count[1], w->cells, w->index);
}

static struct work slices(const struct net *net, double *room) {
    size_t parts = net->part_count;
    struct work w = {.n = net->node_count};
    w.ready = room;
    w.volt = room + 1;
    w.ends = w.volt + w.n;
    w.right = w.ends + w.n;
    w.current = w.right + w.n;
    w.tangent = w.current + parts;
    w.at = w.tangent + parts;
    w.through = w.at + parts;
    w.chord = w.through + parts;
    w.slope = w.chord + parts;
    double *chains = w.slope + parts;
    w.c = circuit_chains_at(net, chains);
    w.index = chains + circuit_chain_index(w.n, parts);
    w.cells = w.index + circuit_matrix_index(w.n);
    if (*w.ready != NOTHING)
        put_matrix(&w);
    return w;
}

static void pair_of(const void *of, size_t i, size_t node[2]) {
    const struct circuit_chains *c = of;
    node[0] = c->from[i];
    node[1] = c->to[i];
}

static void find_order(const struct net *net, struct work *w) {
    circuit_chains_find(&w->c, net);
    put_matrix(w);
    circuit_matrix_order(&w->m, &w->c, w->c.count[0], pair_of);
    *w->ready = ORDERED;
}

/* All positive but that of a constant power. */
static void add_conductance(struct work *w, size_t chain, double g) {
    size_t from = w->c.from[chain], to = w->c.to[chain];
    if (from != to)
        w->m.cell[circuit_matrix_between(&w->m, from, to)] += g;
}

/* By outer node, from what goes into each step. */
static void substitute(const struct work *w) {
    circuit_matrix_substitute(&w->m, w->right);
    for (size_t p = 0; p < w->m.n; p++)
        w->ends[p] = w->right[w->m.place[p]];
}

static double across(const struct work *w, size_t chain) {
    return w->ends[w->c.from[chain]] - w->ends[w->c.to[chain]];
}

static double part_across(const struct work *w, const struct net_part *p) {
    return w->volt[p->from] - w->volt[p->to];
}

/* The straight line that stands for a part: a tangent, or for a load, and at
 * last for a wire, the chord through the point where it takes nothing. A load's
 * chord grows flatter with the voltage, so that chords come nearer from
 * everywhere, though slowly; a tangent is fast, but where a load's law has its
 * corner it can throw the voltage to and fro. A supply that limits itself is
 * like a load, the other way round. */
static double rest_of(const struct net_part *p) {
    return p == NULL ? 0 : circuit_law_rest(&p->law);
}

static bool takes_chord(const struct work *w, const struct net_part *p,
                        size_t k) {
    bool wire = p == NULL || p->law.law == LAW_WIRE; /* a chain is like one */
    if (w->chord[k] == 0 || wire)
        return w->chord[k] != 0 && w->at[k] != 0;
    return fabs(w->at[k] - circuit_law_rest(&p->law)) >
           circuit_law_knee(&p->law);
}

/* A at the point where the line is taken. Near the solution that of a chain is
 * the one of the line before, which spares the search. */
static double point_of(const struct net *net, struct work *w,
                       const struct net_part *p, size_t k, bool warm,
                       double *slope) {
    if (p != NULL)
        return circuit_law_current(&p->law, w->at[k], slope);
    double *through = &w->through[k];
    if (!warm)
        return *through = circuit_chain_current(&w->c, net, k, w->at[k],
                                                *through, slope);
    double ohm;
    w->at[k] = circuit_chain_voltage(&w->c, net, k, *through, &ohm);
    *slope = 1 / ohm;
    return *through;
}

/* What a part takes at 0 V by its line. Near the solution the lines turn so
 * little that the matrix of the round before will do: through the new points,
 * with the old slopes. */
static double line_of(const struct net *net, struct work *w, size_t k,
                      struct round r) {
    const struct net_part *p = circuit_chain_single(&w->c, net, k);
    if (r.first && (p == NULL || !circuit_law_is_linear(p->law.law))) {
        w->slope[k] = circuit_chain_start(&w->c, net, k);
        return -w->slope[k] * rest_of(p);
    }
    double g, through = point_of(net, w, p, k, r.warm, &g);
    if (!r.near) {
        bool chord = takes_chord(w, p, k);
        double rest = chord ? rest_of(p) : 0;
        w->slope[k] = chord ? through / (w->at[k] - rest) : g;
        if (chord)
            return -w->slope[k] * rest;
    }
    return through - w->slope[k] * w->at[k];
}

static bool solve_round(const struct net *net, struct work *w, struct round r) {
    memset(w->right, 0, w->m.n * sizeof *w->right);
    if (!r.near)
        circuit_matrix_clear(&w->m);
    for (size_t k = 0; k < w->c.count[0]; k++) {
        double rest = line_of(net, w, k, r);
        if (!r.near)
            add_conductance(w, k, w->slope[k]);
        w->right[w->m.place[w->c.from[k]]] -= rest;
        w->right[w->m.place[w->c.to[k]]] += rest;
    }
    if (!r.near && !circuit_matrix_factor(&w->m))
        return false;
    substitute(w);
    return true;
}

/* A diode's current grows so fast that its voltage may only creep up: the
 * logarithm of the current that the straight line asks for (as circuit
 * simulators limit a junction). */
static double limited(const struct circuit_part_law *law, double at, double u) {
    double vt = law->figure[1];
    double critical = vt * log(vt / (1.4142135623730951 * law->figure[0]));
    if (u <= critical || fabs(u - at) <= 2 * vt)
        return u;
    if (at <= 0)
        return vt * log(u / vt);
    double more = 1 + (u - at) / vt;
    return more > 0 ? at + vt * log(more) : critical;
}

/* Whether a part goes past the knee of its law, or past its rest. */
static bool is_thrown(const struct net_part *p, double at, double u) {
    double rest = 0, knee = 1;
    if (p != NULL && p->law.law == LAW_LIMITED) {
        rest = circuit_law_rest(&p->law);
        knee = circuit_law_knee(&p->law);
    }
    u -= rest;
    at -= rest;
    return u * at < 0 || (fabs(u) < knee) != (fabs(at) < knee);
}

static bool any_limits(const struct net *net) {
    for (size_t i = 0; i < net->part_count; i++)
        if (net->part[i].law.law == LAW_LIMITED)
            return true;
    return false;
}

/* Moves each chain to its new voltage; that which is farthest off, or the count
 * of chains when all stand still. *most: how far, 1 is close enough. Where a
 * supply and its loads both hold their currents, and not the same, a tangent
 * throws the loads thousands of volts to the other side and back: in time they
 * are stopped at 0, from where the way is found. */
static size_t move(const struct net *net, struct work *w, int round,
                   bool *chords, double *most) {
    size_t worst = w->c.count[0];
    bool stops = round >= STOPS_FROM && any_limits(net);
    *most = 0;
    *chords = false;
    for (size_t k = 0; k < w->c.count[0]; k++) {
        const struct net_part *p = circuit_chain_single(&w->c, net, k);
        double u = across(w, k);
        if (p != NULL && circuit_law_is_linear(p->law.law)) {
            w->at[k] = u;
            continue;
        }
        double size = fabs(w->ends[w->c.from[k]]) + fabs(w->ends[w->c.to[k]]);
        double off = fabs(u - w->at[k]) / (TINY + CLOSE * size);
        if (!(off <= *most)) {
            *most = off;
            worst = off <= 1 ? worst : k;
        }
        w->through[k] += w->slope[k] * (u - w->at[k]);
        if (p != NULL && p->law.law == LAW_DIODE)
            u = limited(&p->law, w->at[k], u);
        bool wire = p == NULL || p->law.law == LAW_WIRE;
        bool thrown = is_thrown(p, w->at[k], u);
        bool again = round >= AGAIN_FROM && round < AGAIN_TO;
        w->chord[k] = again || (!wire && (thrown || round < CHORDS));
        if (stops && p != NULL && u * w->at[k] < 0 &&
            (p->law.law == LAW_CURRENT || p->law.law == LAW_LAMP))
            u = 0;
        w->at[k] = u;
        *chords = *chords || w->chord[k] != 0;
    }
    return worst;
}

/* Of all parts and nodes, at the solution. True: the lines in the matrix, taken
 * near it, are tangents; no chord stood for a part. */
static bool fill_in(const struct net *net, struct work *w) {
    bool tangents = true;
    for (size_t p = 0; p < w->n; p++)
        if (w->c.outer[p] != CHAIN_INNER)
            w->volt[p] = w->ends[w->c.outer[p]];
    for (size_t k = 0; k < w->c.count[0]; k++) {
        const struct net_part *p = circuit_chain_single(&w->c, net, k);
        double slope;
        if (p != NULL)
            w->current[p - net->part] =
                circuit_law_current(&p->law, across(w, k), &slope);
        else
            slope = 1 / circuit_chain_inside(&w->c, net, k, w->through[k],
                                             w->current, w->tangent, w->volt);
        tangents = tangents && fabs(w->slope[k] - slope) <= 1e-4 * fabs(slope);
    }
    return tangents;
}

/* A node that nothing joins to node 0; node_count when there is none. */
static size_t floating(const struct net *net, struct work *w) {
    memset(w->right, 0, w->n * sizeof *w->right);
    w->right[0] = 1;
    for (bool grown = true; grown;) {
        grown = false;
        for (size_t i = 0; i < net->part_count; i++) {
            double *a = &w->right[net->part[i].from];
            double *b = &w->right[net->part[i].to];
            if (*a == *b)
                continue;
            *a = *b = 1;
            grown = true;
        }
    }
    size_t p = 0;
    while (p < w->n && w->right[p] != 0)
        p++;
    return p;
}

/* A supply that limits itself gives way to a battery that holds its own
 * voltage, however low. Where none does, or it is driven backwards, it is as
 * good as shorted. */
static bool is_shorted(const struct net *net, const struct net_part *p,
                       double volt) {
    if (p->law.figure[0] <= 0 || volt >= p->law.figure[0] / 2)
        return false;
    if (p->law.law == LAW_SUPPLY || volt < 0)
        return true;
    for (size_t i = 0; i < net->part_count; i++)
        if (net->part[i].law.law == LAW_SUPPLY)
            return false;
    return true;
}

static enum net_fault judge(const struct net *net, const struct work *w,
                            size_t *where) {
    for (size_t i = 0; i < net->part_count; i++) {
        *where = i;
        if (net->part[i].law.law == LAW_POWER &&
            fabs(part_across(w, &net->part[i])) < 1)
            return NET_UNFED;
    }
    for (size_t i = 0; i < net->part_count; i++) {
        const struct net_part *p = &net->part[i];
        *where = i;
        if (circuit_law_is_supply(p->law.law) &&
            is_shorted(net, p, -part_across(w, p)))
            return NET_SHORTED;
    }
    return NET_SOLVED;
}

static size_t hungry(const struct net *net) {
    for (size_t i = 0; i < net->part_count; i++)
        if (net->part[i].law.law == LAW_POWER)
            return i;
    return net->part_count;
}

/* Rounds until nothing moves: the count of chains; else that which moved most.
 * Warm: from the voltages of the solution before, with tangents only. */
static size_t iterate(const struct net *net, struct work *w, bool warm,
                      int *rounds) {
    size_t worst = 0, count = w->c.count[0];
    if (warm)
        memset(w->chord, 0, count * sizeof *w->chord);
    else
        memset(w->at, 0, count * sizeof *w->at);
    if (!warm)
        memset(w->through, 0, count * sizeof *w->through);
    int from = warm ? CHORDS : 0, to = warm ? CHORDS + WARM_ROUNDS : ROUNDS_MAX;
    struct round r = {.warm = warm};
    double most = NAN, before;
    bool chords;
    for (int round = from; round < to && worst < count; round++) {
        r.first = round == 0;
        if (!solve_round(net, w, r))
            return worst;
        before = most;
        worst = move(net, w, round, &chords, &most);
        /* where it settles, a round moves things by less than this share of
         * what the one before did */
        double share = chords ? INFINITY : most / before;
        if (share < SHRINKS && most * share <= 1)
            worst = count;
        r.near = !chords && most < NEAR && (!r.near || share < SHRINKS);
        ++*rounds;
    }
    return worst;
}

/* Tangents at the solution. */
static bool factor_tangents(const struct net *net, struct work *w) {
    if (*w->ready == FACTORED)
        return true;
    circuit_matrix_clear(&w->m);
    for (size_t k = 0; k < w->c.count[0]; k++) {
        const struct net_part *p = circuit_chain_single(&w->c, net, k);
        double g;
        point_of(net, w, p, k, true, &g);
        add_conductance(w, k, g);
    }
    bool factored = circuit_matrix_factor(&w->m);
    *w->ready = factored ? FACTORED : ORDERED;
    return factored;
}

/* Of the two voltages at which a load of constant power takes it, this is the
 * one where it runs: from the other, where its voltage has broken down, any
 * push would move it further. Then and only then all sums of rows are positive;
 * chains change nothing, since what is in them is positive. */
static bool is_steady(const struct net *net, struct work *w) {
    return hungry(net) == net->part_count ||
           (factor_tangents(net, w) && circuit_matrix_is_positive(&w->m));
}

enum net_fault circuit_net_solve(const struct net *net, double *room,
                                 struct net_solution *out) {
    if (net->node_count > NET_NODES_MAX)
        return NET_LARGE;
    struct work w = slices(net, room);
    bool known = *w.ready != NOTHING; /* and so nothing floats */
    *out = (struct net_solution){w.volt, w.current,
                                 known ? w.n : floating(net, &w), 0};
    if (out->where < w.n)
        return NET_FLOATS;
    known = known && circuit_chains_hold(&w.c, net);
    if (!known)
        find_order(net, &w);
    *w.ready = ORDERED;
    size_t worst = 0, count = w.c.count[0];
    if (known)
        worst = iterate(net, &w, true, &out->rounds);
    if (known && worst == count)
        *w.ready = fill_in(net, &w) ? FACTORED : ORDERED;
    if (!known || worst != count || !is_steady(net, &w)) {
        worst = iterate(net, &w, false, &out->rounds);
        *w.ready = fill_in(net, &w) ? FACTORED : ORDERED;
    }
    if (worst == count)
        return judge(net, &w, &out->where);
    *w.ready = ORDERED;
    out->where = hungry(net);
    if (out->where < net->part_count)
        return NET_UNFED;
    out->where = w.c.part[w.c.first[worst]];
    return NET_DIVERGES;
}

size_t circuit_net_kept(const struct net *net, double *room) {
    struct work w = slices(net, room);
    return 1 + w.n + 2 * net->part_count + 2 * w.c.count[0] +
           circuit_matrix_packed(&w.m);
}

/* What a solution is, and its factors: `current` and `tangent`, `at` and
 * `through` stand side by side. */
void circuit_net_keep(const struct net *net, double *room, double *kept) {
    struct work w = slices(net, room);
    size_t count = w.c.count[0];
    factor_tangents(net, &w);
    *kept++ = *w.ready;
    memcpy(kept, w.volt, w.n * sizeof *kept);
    kept += w.n;
    memcpy(kept, w.current, 2 * net->part_count * sizeof *kept);
    kept += 2 * net->part_count;
    memcpy(kept, w.at, count * sizeof *kept);
    memcpy(kept + count, w.through, count * sizeof *kept);
    circuit_matrix_pack(&w.m, kept + 2 * count);
}

struct net_solution circuit_net_recall(const struct net *net, double *room,
                                       const double *kept) {
    struct work w = slices(net, room);
    size_t count = w.c.count[0];
    *w.ready = *kept++;
    memcpy(w.volt, kept, w.n * sizeof *kept);
    kept += w.n;
    memcpy(w.current, kept, 2 * net->part_count * sizeof *kept);
    kept += 2 * net->part_count;
    memcpy(w.at, kept, count * sizeof *kept);
    memcpy(w.through, kept + count, count * sizeof *kept);
    circuit_matrix_unpack(&w.m, kept + 2 * count);
    return (struct net_solution){w.volt, w.current, w.n, 0};
}

void circuit_net_adjoint(const struct net *net, double *room,
                         const double *weight, double *by) {
    struct work w = slices(net, room);
    const struct circuit_chains *c = &w.c;
    if (!factor_tangents(net, &w)) {
        memcpy(by, weight, w.n * sizeof *by);
        return;
    }
    memset(w.ends, 0, w.m.n * sizeof *w.ends);
    for (size_t p = 0; p < w.n; p++)
        if (c->outer[p] != CHAIN_INNER)
            w.ends[c->outer[p]] += weight[p];
        else if (weight[p] != 0)
            circuit_chain_gather(c, net, p, w.tangent, weight[p], w.ends);
    for (size_t p = 0; p < w.m.n; p++)
        w.right[w.m.place[p]] = w.ends[p];
    substitute(&w);
    for (size_t p = 0; p < w.n; p++)
        if (c->outer[p] != CHAIN_INNER)
            by[p] = w.ends[c->outer[p]];
    for (size_t k = 0; k < c->count[0]; k++)
        if (circuit_chain_single(c, net, k) == NULL)
            circuit_chain_spread(c, net, k, w.tangent, weight, by);
}

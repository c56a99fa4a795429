/* circuit_net.c - nodal analysis: Newton's iteration, the adjoint. */
#include "calc/circuit_net.h"

#include "calc/circuit_matrix.h"

#include <math.h>
#include <string.h>

/* Rounds of chords at the start, and again when tangents did not do it. */
enum {
    ROUNDS_MAX = 300,
    CHORDS = 6,
    AGAIN_FROM = 60,
    AGAIN_TO = 180,
    WARM_ROUNDS = 12
};
#define CLOSE 1e-11 /* of the voltage: what rounding leaves is less */
#define TINY 1e-11  /* V */
#define NEAR 1e5    /* times that: one more round without new tangents */

/* What stands in the caller's memory. */
enum { NOTHING, ORDERED, FACTORED };

/* Slices of it. */
struct work {
    size_t n;      /* nodes */
    double *ready; /* [1] NOTHING; ORDERED: the order was found; FACTORED:
                      the matrix is that of the tangents at the solution, to
                      1e-4 of each */
    double *volt, *right; /* by node; by step, what goes in and comes out */
    double *current, *at; /* by part: `at` is where its law is taken linear */
    double *chord;        /* by part: a chord this time, not a tangent */
    double *slope;        /* by part: of the lines in the matrix */
    struct circuit_matrix m;
};

size_t circuit_net_room(size_t n, size_t parts) {
    return 1 + 2 * n + 4 * parts + circuit_matrix_cells(n) +
           circuit_matrix_index(n);
}

static struct work slices(const struct net *net, double *room) {
    struct work w = {.n = net->node_count};
    w.ready = room;
    w.volt = room + 1;
    w.right = w.volt + w.n;
    w.current = w.right + w.n;
    w.at = w.current + net->part_count;
    w.chord = w.at + net->part_count;
    w.slope = w.chord + net->part_count;
    double *cells = w.slope + net->part_count;
    w.m = circuit_matrix_at(w.n, cells, cells + circuit_matrix_cells(w.n));
    return w;
}

static void pair_of(const void *of, size_t i, size_t node[2]) {
    const struct net *net = of;
    node[0] = net->part[i].from;
    node[1] = net->part[i].to;
}

/* All positive but that of a constant power. */
static void add_conductance(struct work *w, const struct net_part *p,
                            double g) {
    if (p->from != p->to)
        w->m.cell[circuit_matrix_between(&w->m, p->from, p->to)] += g;
}

/* By node, from what goes into each step. */
static void substitute(const struct work *w, double *volt) {
    circuit_matrix_substitute(&w->m, w->right);
    for (size_t p = 0; p < w->n; p++)
        volt[p] = w->right[w->m.place[p]];
}

static double across(const struct work *w, const struct net_part *p) {
    return w->volt[p->from] - w->volt[p->to];
}

static bool is_load(const struct net_part *p) {
    return p->law.law == LAW_LAMP || p->law.law == LAW_CURRENT ||
           p->law.law == LAW_POWER;
}

/* The straight line that stands for a part: a tangent, or for a load, and at
 * last for a wire, the chord through the origin. A load's chord grows flatter
 * with the voltage, so that chords come nearer from everywhere, though slowly;
 * a tangent is fast, but where a load's law has its corner it can throw the
 * voltage to and fro. */
static double line_of(const struct work *w, const struct net_part *p, size_t i,
                      bool first, double *rest) {
    double g, at = w->at[i];
    *rest = 0;
    if (first && !circuit_law_is_linear(p->law.law))
        return circuit_law_start(&p->law);
    double through = circuit_law_current(&p->law, at, &g);
    if (is_load(p) && w->chord[i] != 0 && fabs(at) > 1)
        return through / at;
    if (p->law.law == LAW_WIRE && w->chord[i] != 0 && at != 0)
        return through / at;
    *rest = through - g * at;
    return g;
}

/* Near the solution the lines turn so little that the matrix of the round
 * before will do: through the new points, with the old slopes. */
static double parallel_of(const struct work *w, const struct net_part *p,
                          size_t i) {
    double slope;
    return circuit_law_current(&p->law, w->at[i], &slope) -
           w->slope[i] * w->at[i];
}

static bool round_of(const struct net *net, struct work *w, bool first,
                     bool near) {
    memset(w->right, 0, w->n * sizeof *w->right);
    if (!near)
        circuit_matrix_clear(&w->m);
    for (size_t i = 0; i < net->part_count; i++) {
        const struct net_part *p = &net->part[i];
        double rest;
        if (near) {
            rest = parallel_of(w, p, i);
        } else {
            w->slope[i] = line_of(w, p, i, first, &rest);
            add_conductance(w, p, w->slope[i]);
        }
        w->right[w->m.place[p->from]] -= rest;
        w->right[w->m.place[p->to]] += rest;
    }
    if (!near && !circuit_matrix_factor(&w->m))
        return false;
    substitute(w, w->volt);
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

/* Moves each part to its new voltage; the part that is farthest off, or
 * part_count when all stand still. *near: none is far off. */
static size_t move(const struct net *net, struct work *w, int round,
                   bool *near) {
    size_t worst = net->part_count;
    double most = 1;
    bool chords = false;
    for (size_t i = 0; i < net->part_count; i++) {
        const struct net_part *p = &net->part[i];
        double u = across(w, p);
        if (circuit_law_is_linear(p->law.law)) {
            w->at[i] = u;
            continue;
        }
        double off =
            fabs(u - w->at[i]) /
            (TINY + CLOSE * (fabs(w->volt[p->from]) + fabs(w->volt[p->to])));
        if (!(off <= most)) {
            most = off;
            worst = i;
        }
        if (p->law.law == LAW_DIODE)
            u = limited(&p->law, w->at[i], u);
        bool thrown = u * w->at[i] < 0 || (fabs(u) < 1) != (fabs(w->at[i]) < 1);
        bool again = round >= AGAIN_FROM && round < AGAIN_TO;
        w->chord[i] =
            again || (p->law.law != LAW_WIRE && (thrown || round < CHORDS));
        w->at[i] = u;
        chords = chords || w->chord[i] != 0;
    }
    *near = !chords && most < NEAR;
    return worst;
}

/* Of all parts, at the solution. True: the lines in the matrix, taken near it,
 * are tangents; no chord stood for a part. */
static bool find_currents(const struct net *net, struct work *w) {
    bool tangents = true;
    for (size_t i = 0; i < net->part_count; i++) {
        const struct net_part *p = &net->part[i];
        double slope;
        w->current[i] = circuit_law_current(&p->law, across(w, p), &slope);
        tangents = tangents && fabs(w->slope[i] - slope) <= 1e-4 * fabs(slope);
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

static enum net_fault judge(const struct net *net, const struct work *w,
                            size_t *where) {
    for (size_t i = 0; i < net->part_count; i++) {
        *where = i;
        if (net->part[i].law.law == LAW_POWER &&
            fabs(across(w, &net->part[i])) < 1)
            return NET_UNFED;
    }
    for (size_t i = 0; i < net->part_count; i++) {
        const struct net_part *p = &net->part[i];
        double u = across(w, p);
        *where = i;
        if (p->law.law == LAW_SUPPLY && p->law.figure[0] > 0 &&
            -u < p->law.figure[0] / 2)
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

/* Rounds until nothing moves: part_count; else the part that moved most. Warm:
 * from the voltages of the solution before, with tangents only. */
static size_t iterate(const struct net *net, struct work *w, bool warm,
                      int *rounds) {
    size_t worst = 0;
    if (warm)
        memset(w->chord, 0, net->part_count * sizeof *w->chord);
    else
        memset(w->at, 0, net->part_count * sizeof *w->at);
    int from = warm ? CHORDS : 0, to = warm ? CHORDS + WARM_ROUNDS : ROUNDS_MAX;
    bool near = false, close;
    for (int round = from; round < to && worst < net->part_count; round++) {
        if (!round_of(net, w, round == 0, near))
            return worst;
        worst = move(net, w, round, &close);
        near = !near && close;
        ++*rounds;
    }
    return worst;
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
    if (!known)
        circuit_matrix_order(&w.m, net, net->part_count, pair_of);
    *w.ready = ORDERED;
    size_t worst =
        known ? iterate(net, &w, true, &out->rounds) : net->part_count + 1;
    if (worst != net->part_count)
        worst = iterate(net, &w, false, &out->rounds);
    bool tangents = find_currents(net, &w);
    if (worst == net->part_count) {
        *w.ready = tangents ? FACTORED : ORDERED;
        return judge(net, &w, &out->where);
    }
    out->where = hungry(net);
    if (out->where < net->part_count)
        return NET_UNFED;
    out->where = worst;
    return NET_DIVERGES;
}

/* Tangents at the solution. */
static bool factor_tangents(const struct net *net, struct work *w) {
    if (*w->ready == FACTORED)
        return true;
    circuit_matrix_clear(&w->m);
    for (size_t i = 0; i < net->part_count; i++) {
        double g;
        circuit_law_current(&net->part[i].law, across(w, &net->part[i]), &g);
        add_conductance(w, &net->part[i], g);
    }
    bool factored = circuit_matrix_factor(&w->m);
    *w->ready = factored ? FACTORED : ORDERED;
    return factored;
}

size_t circuit_net_kept(const struct net *net, double *room) {
    struct work w = slices(net, room);
    return 1 + w.n + 2 * net->part_count + circuit_matrix_packed(&w.m);
}

/* What a solution is, and its factors; `current` and `at` stand side by side.
 */
void circuit_net_keep(const struct net *net, double *room, double *kept) {
    struct work w = slices(net, room);
    factor_tangents(net, &w);
    *kept++ = *w.ready;
    memcpy(kept, w.volt, w.n * sizeof *kept);
    memcpy(kept + w.n, w.current, 2 * net->part_count * sizeof *kept);
    circuit_matrix_pack(&w.m, kept + w.n + 2 * net->part_count);
}

struct net_solution circuit_net_recall(const struct net *net, double *room,
                                       const double *kept) {
    struct work w = slices(net, room);
    *w.ready = *kept++;
    memcpy(w.volt, kept, w.n * sizeof *kept);
    memcpy(w.current, kept + w.n, 2 * net->part_count * sizeof *kept);
    circuit_matrix_unpack(&w.m, kept + w.n + 2 * net->part_count);
    return (struct net_solution){w.volt, w.current, w.n, 0};
}

void circuit_net_adjoint(const struct net *net, double *room,
                         const double *weight, double *by) {
    struct work w = slices(net, room);
    if (!factor_tangents(net, &w)) {
        memcpy(by, weight, w.n * sizeof *by);
        return;
    }
    for (size_t p = 0; p < w.n; p++)
        w.right[w.m.place[p]] = weight[p];
    substitute(&w, by);
}

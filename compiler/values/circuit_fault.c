/* circuit_fault.c - currents into a short, anywhere in a circuit. */
#include "values/circuit_fault.h"

#include "base/arena.h"
#include "calc/conductor.h"
#include "calc/rounding.h"
#include "values/range.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

/* Past the junction of a diode while a short lasts, ohm: 1 V at 20 A, and at
 * 1000 A. From memory: a rectifier's data sheet. */
#define DIODE_MOST 0.05
#define DIODE_LEAST 0.001
/* So that every node has a voltage, ohm. */
#define STRAY 1e9
/* Above this a supply does not count as joined to the short, ohm. */
#define APART 1e6
/* Less than this is the noise of what only leaks, A. */
#define NOTHING 1e-3

bool circuit_fault_carries(const struct circuit_work *w, size_t part) {
    if (w->part[part].law == LAWS)
        return false;
    if (part >= w->c->element_count)
        return true;
    enum circuit_part kind = w->c->element[part].part;
    return kind != CIRCUIT_LOAD && kind != CIRCUIT_COIL;
}

static bool is_least(enum fault_end end) {
    return end == FAULT_LEAST || end == FAULT_LIMITED;
}

/* A figure that drives the current, or one that holds it back. */
static double driving(const struct quantity *q, enum fault_end end) {
    struct ends e = range_ends(q);
    return end == FAULT_MOST ? e.high : is_least(end) ? e.low : q->nominal;
}

static double holding(const struct quantity *q, enum fault_end end) {
    struct ends e = range_ends(q);
    return end == FAULT_MOST ? e.low : is_least(end) ? e.high : q->nominal;
}

/* The voltage of a supply, resting or charging, whichever is further out. */
static double volt_of(const struct circuit_work *w, size_t part,
                      enum fault_end end) {
    static const char *const states[] = {"resting", "charging"};
    const struct circuit_piece *p = &w->part[part];
    double volt = driving(p->figure[0], end);
    if (end == FAULT_NOMINAL)
        return volt;
    const struct block *supply = circuit_solve_supply(w, part);
    for (size_t i = 0; supply != NULL && i < 2; i++) {
        const struct value *value =
            block_setting(w->v, supply, states[i], w->variant);
        if (value->type != VALUE_QUANTITY)
            continue;
        double one = driving(value->quantity, end);
        volt = end == FAULT_MOST ? fmax(volt, one) : fmin(volt, one);
    }
    return volt;
}

static double wire_ohm(const struct circuit_piece *p, enum fault_end end) {
    const struct ampacity_use *use = &p->run->ampacity.use;
    double kelvin = end == FAULT_MOST ? 293.15
                    : is_least(end)   ? use->insulation
                                      : p->figure[2]->nominal;
    return holding(p->figure[0], end) * holding(p->figure[1], end) *
           conductor_ratio(use->material, 293.15, kelvin);
}

/* What limits itself gives more than its rating for an instant: a charger what
 * its capacitors hold, an alternator until its field has died down (common
 * practice, no source). A fuse must break that, so that at the most, and at the
 * nominal figures, only its resistance holds it back. What opens a fuse is what
 * lasts: then it is taken for a source of such a resistance that its own short
 * takes its rating, which nowhere gives more than it does. */
static double supply_ohm(const struct circuit_piece *p, enum fault_end end,
                         double volt) {
    double ohm = holding(p->figure[1], end);
    return p->law == LAW_LIMITED && end == FAULT_LIMITED
               ? fmax(ohm, volt / driving(p->figure[2], end))
               : ohm;
}

static struct circuit_part_law law_of(const struct circuit_work *w, size_t i,
                                      enum fault_end end) {
    const struct circuit_piece *p = &w->part[i];
    struct circuit_part_law law = {LAW_RESISTANCE, {0, 0, 0}};
    if (circuit_law_is_supply(p->law)) {
        law.law = LAW_SUPPLY;
        law.figure[0] = volt_of(w, i, end);
        law.figure[1] = supply_ohm(p, end, law.figure[0]);
    } else if (p->law == LAW_WIRE) {
        law.figure[0] = wire_ohm(p, end);
    } else if (p->law == LAW_DIODE) {
        law.figure[0] = is_least(end) ? DIODE_MOST : DIODE_LEAST;
    } else {
        law.figure[0] = holding(p->figure[0], end);
    }
    return law;
}

/* The parts that carry a short, and a leak at each node. */
static struct net net_of(const struct circuit_work *w, enum fault_end end,
                         const bool *open, size_t *in_net) {
    size_t nodes = w->node_count, count = 0;
    struct net_part *part =
        arena_alloc(w->v->c->arena, w->part_count + nodes, sizeof *part);
    for (size_t i = 0; i < w->part_count; i++) {
        in_net[i] = SIZE_MAX;
        if (!circuit_fault_carries(w, i) || (open != NULL && open[i]))
            continue;
        in_net[i] = count;
        part[count++] =
            (struct net_part){w->from[i], w->to[i], law_of(w, i, end)};
    }
    for (size_t n = 1; n < nodes; n++)
        part[count++] =
            (struct net_part){n, 0, {LAW_RESISTANCE, {STRAY, 0, 0}}};
    return (struct net){part, count, nodes};
}

static bool same_part(const struct net_part *a, const struct net_part *b) {
    bool same =
        a->from == b->from && a->to == b->to && a->law.law == b->law.law;
    for (size_t k = 0; k < LAW_FIGURES; k++)
        same = same && a->law.figure[k] == b->law.figure[k];
    return same;
}

/* The same net in a list of those that were solved; NULL: it is new. */
static struct circuit_fault *find(struct circuit_fault *list,
                                  const struct net *net) {
    for (; list != NULL; list = list->next) {
        size_t same = 0;
        while (list->net.part_count == net->part_count &&
               list->net.node_count == net->node_count &&
               same < net->part_count &&
               same_part(&list->net.part[same], &net->part[same]))
            same++;
        if (same == net->part_count)
            break;
    }
    return list;
}

struct circuit_fault *circuit_fault_open(struct circuit_work *w,
                                         enum fault_end end, const bool *open) {
    struct arena *a = w->v->c->arena;
    size_t *in_net = arena_alloc(a, w->part_count, sizeof *in_net);
    struct net net = net_of(w, end, open, in_net);
    struct circuit_fault *f = find(w->faults, &net);
    if (f == NULL && w->twin != NULL)
        f = find(w->twin->faults, &net);
    if (f != NULL)
        return f;
    f = arena_alloc(a, 1, sizeof *f);
    *f = (struct circuit_fault){
        .w = w,
        .net = net,
        .room = arena_alloc(a, circuit_net_room(net.node_count, net.part_count),
                            sizeof(double)),
        .weight = arena_alloc(a, net.node_count, sizeof *f->weight),
        .by = arena_alloc(a, net.node_count, sizeof *f->by),
        .in_net = in_net,
        .worst = NAN,
        .next = w->faults};
    enum net_fault fault = circuit_net_solve(&f->net, f->room, &f->open);
    if (fault != NET_SOLVED && fault != NET_SHORTED)
        return NULL;
    return w->faults = f;
}

bool circuit_fault_throw(const struct circuit_work *w, bool pulled,
                         struct text other, bool *open) {
    const struct circuit *c = w->c;
    bool any = false;
    for (size_t i = 0; i < c->element_count; i++) {
        bool rests = circuit_solve_rests(&c->element[i]), both = false;
        open[i] = false;
        if (c->element[i].part != CIRCUIT_CONTACT || w->part[i].law == LAWS)
            continue;
        for (size_t k = 0; k < c->element_count; k++)
            both =
                both || (c->element[k].part == CIRCUIT_CONTACT &&
                         w->part[k].law != LAWS &&
                         text_equal(c->element[k].name, c->element[i].name) &&
                         circuit_solve_rests(&c->element[k]) != rests);
        open[i] =
            both && (rests == pulled) != text_equal(c->element[i].name, other);
        any = any || both;
    }
    return any;
}

struct circuit_fault *circuit_fault_most(struct circuit_work *w) {
    if (w->most == NULL) {
        circuit_solve_all_on(w);
        w->most = circuit_fault_open(w, FAULT_MOST, NULL);
    }
    return w->most;
}

/* A way that is the same as one before it counts once. */
static bool add_one(struct circuit_fault_ways *l, struct circuit_work *w,
                    enum fault_end end, const bool *open) {
    struct circuit_fault *f = circuit_fault_open(w, end, open);
    for (size_t i = 0; i < l->count && f != NULL; i++)
        if (l->way[i] == f)
            return true;
    l->way[l->count++] = f;
    return f != NULL;
}

/* Where a source limits itself, both ways: what it gives more takes another's
 * place in a fuse beside it. */
static bool add_way(struct circuit_fault_ways *l, struct circuit_work *w,
                    const bool *open) {
    bool limited = false;
    for (size_t s = w->c->element_count; s < w->part_count; s++)
        limited = limited || w->part[s].law == LAW_LIMITED;
    return add_one(l, w, FAULT_LEAST, open) &&
           (!limited || add_one(l, w, FAULT_LIMITED, open));
}

static bool find_least(struct circuit_fault_ways *l, struct circuit_work *w) {
    struct arena *a = w->v->c->arena;
    bool *open = arena_alloc(a, w->part_count, sizeof *open);
    l->way = arena_alloc(a, 2 * (3 + w->c->state_count), sizeof(*l->way));
    l->count = 0;
    circuit_solve_all_on(w);
    if (!add_way(l, w, NULL))
        return false;
    for (int pulled = 0;
         pulled < 2 &&
         circuit_fault_throw(w, pulled, (struct text){NULL, 0}, open);
         pulled++)
        if (!add_way(l, w, open))
            return false;
    for (size_t s = 0; s < w->c->state_count; s++)
        if (!circuit_solve_state(w, s, NULL) || !add_way(l, w, w->open))
            return false;
    return true;
}

const struct circuit_fault_ways *circuit_fault_least(struct circuit_work *w) {
    if (w->least != NULL)
        return w->least;
    struct circuit_fault_ways *l = arena_alloc(w->v->c->arena, 1, sizeof *l);
    if (find_least(l, w))
        w->least = l;
    return w->least;
}

void circuit_fault_draw(struct circuit_fault *f, size_t from, size_t to) {
    f->current = 0;
    memset(f->weight, 0, f->net.node_count * sizeof *f->weight);
    f->weight[from] += 1;
    f->weight[to] -= 1;
    circuit_net_adjoint(&f->net, f->room, f->weight, f->by);
}

double circuit_fault_share(const struct circuit_fault *f, size_t wire) {
    size_t n = f->in_net[wire];
    if (n == SIZE_MAX)
        return 0;
    const struct net_part *p = &f->net.part[n];
    return fabs((f->by[p->from] - f->by[p->to]) / p->law.figure[0]);
}

double circuit_fault_between(struct circuit_fault *f, size_t from, size_t to) {
    double volt = f->open.volt[from] - f->open.volt[to];
    f->current = 0;
    if (from == to || !(volt > 0))
        return 0;
    circuit_fault_draw(f, from, to);
    double ohm = f->by[from] - f->by[to];
    f->current = ohm > 0 && ohm < APART ? volt / ohm : 0;
    if (f->current < NOTHING)
        f->current = 0;
    return f->current;
}

/* The short draws its current from `from` and gives it to `to`; by reciprocity
 * each node moves by what the adjoint says. */
double circuit_fault_through(const struct circuit_fault *f, size_t part) {
    size_t n = f->in_net[part];
    if (n == SIZE_MAX)
        return 0;
    const struct net_part *p = &f->net.part[n];
    double volt = f->open.volt[p->from] - f->current * f->by[p->from] -
                  f->open.volt[p->to] + f->current * f->by[p->to];
    double slope;
    return fabs(circuit_law_current(&p->law, volt, &slope));
}

static double between_post(struct circuit_fault *f, size_t node, size_t post,
                           bool minus) {
    return minus ? circuit_fault_between(f, node, post)
                 : circuit_fault_between(f, post, node);
}

/* The most of the shorts between a node and a post of each supply. */
static double most_of_posts(struct circuit_fault *f, size_t node, bool minus) {
    const struct circuit_work *w = f->w;
    double most = 0;
    size_t post = SIZE_MAX, last = SIZE_MAX;
    for (size_t s = w->c->element_count; s < w->part_count; s++) {
        if (f->in_net[s] == SIZE_MAX)
            continue;
        last = minus ? w->from[s] : w->to[s];
        double one = between_post(f, node, last, minus);
        if (one <= most)
            continue;
        most = one;
        post = last;
    }
    return post == last || post == SIZE_MAX
               ? most
               : between_post(f, node, post, minus);
}

double circuit_fault_at(struct circuit_fault *f, size_t node) {
    return most_of_posts(f, node, true);
}

double circuit_fault_into(struct circuit_fault *f, size_t node) {
    return most_of_posts(f, node, false);
}

double circuit_fault_worst(struct circuit_fault *f) {
    if (isnan(f->worst)) {
        f->worst = 0;
        for (size_t n = 0; n < f->net.node_count; n++)
            f->worst = fmax(f->worst, circuit_fault_at(f, n));
    }
    return f->worst;
}

double circuit_fault_volt(const struct circuit_fault *f, size_t part) {
    const struct circuit_work *w = f->w;
    double volt = 0;
    for (size_t s = w->c->element_count; s < w->part_count; s++) {
        size_t post[] = {w->from[s], w->to[s]};
        for (size_t i = 0; i < 2 && f->in_net[s] != SIZE_MAX; i++) {
            double at = f->open.volt[post[i]];
            volt = fmax(volt, fabs(f->open.volt[w->from[part]] - at));
            volt = fmax(volt, fabs(f->open.volt[w->to[part]] - at));
        }
    }
    return round_snap(volt);
}

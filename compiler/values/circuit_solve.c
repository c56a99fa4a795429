/* circuit_solve.c - a circuit of one variant as a net of two-terminal parts. */
#include "values/circuit_solve.h"

#include "base/arena.h"
#include "base/diag.h"
#include "calc/relay.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

/* Of what a state cuts off, so that it has a voltage, 0: ohm. */
#define STRAY 1e9
/* Of a supply that no relay is sold for, at the 12 V relay's share. */
#define PULLS 0.7

enum { RELAY_ROUNDS = 8 };

static size_t node_of_point(struct circuit_work *w, size_t point) {
    if (w->node[point] == SIZE_MAX)
        w->node[point] = w->node_count++;
    return w->node[point];
}

static void place_branch(struct circuit_work *w,
                         const struct circuit_branch *b) {
    size_t present = 0, seen = 0, here = 0;
    for (size_t i = 0; i < b->count; i++)
        present += w->part[b->first + i].law != LAWS;
    if (present == 0)
        return;
    here = node_of_point(w, b->from);
    for (size_t i = 0; i < b->count; i++) {
        size_t p = b->first + i;
        if (w->part[p].law == LAWS)
            continue;
        w->from[p] = here;
        here = ++seen == present ? node_of_point(w, b->to) : w->node_count++;
        w->to[p] = here;
    }
}

/* The post of a supply as a node; one that no path names is a new one. */
static size_t post(struct circuit_work *w, size_t supply, bool minus) {
    for (size_t i = 0; i < w->c->point_count; i++)
        if (w->c->point[i].supply == (int)supply &&
            w->c->point[i].minus == minus)
            return node_of_point(w, i);
    return w->node_count++;
}

static void place(struct circuit_work *w) {
    const struct circuit *c = w->c;
    for (size_t i = 0; i < c->point_count; i++)
        w->node[i] = SIZE_MAX;
    for (size_t s = 0; s < c->supply_count; s++) { /* the first minus is 0 */
        w->from[c->element_count + s] = post(w, s, true);
        w->to[c->element_count + s] = post(w, s, false);
    }
    for (size_t i = 0; i < c->branch_count; i++)
        place_branch(w, &c->branch[i]);
}

struct circuit_work *circuit_solve_open(struct values *v, const struct block *b,
                                        size_t variant) {
    struct arena *a = v->c->arena;
    struct circuit_work *w = arena_alloc(a, 1, sizeof *w);
    *w = (struct circuit_work){
        .v = v, .b = b, .c = b->circuit, .variant = variant};
    size_t count = w->part_count =
        b->circuit->element_count + b->circuit->supply_count;
    w->part = arena_alloc(a, count, sizeof *w->part);
    w->from = arena_alloc(a, count, sizeof *w->from);
    w->to = arena_alloc(a, count, sizeof *w->to);
    w->open = arena_alloc(a, count, sizeof *w->open);
    w->peak = arena_alloc(a, count, sizeof *w->peak);
    w->node = arena_alloc(a, b->circuit->point_count, sizeof *w->node);
    if (!circuit_part_read(v, b, variant, w->part))
        return NULL;
    place(w);
    size_t room = count + w->node_count;
    w->net_part = arena_alloc(a, room, sizeof *w->net_part);
    w->of_net = arena_alloc(a, room, sizeof *w->of_net);
    w->in_net = arena_alloc(a, count, sizeof *w->in_net);
    w->memo = arena_alloc(a, b->circuit->state_count, sizeof *w->memo);
    return w;
}

bool circuit_solve_rests(const struct circuit_element *e) {
    return text_is(e->terminal[0], "87a") || text_is(e->terminal[1], "87a");
}

/* What the state says of one element. */
static bool put_word(struct circuit_work *w, const struct circuit_set *set) {
    const struct circuit *c = w->c;
    if (set->element == CIRCUIT_NONE)
        return circuit_part_supply(
            w->v, w->b, w->variant, &c->supply[set->supply], set->word,
            &w->part[c->element_count + (size_t)set->supply]);
    struct text name = c->element[set->element].name;
    for (size_t i = 0; i < c->element_count; i++) {
        const struct circuit_element *e = &c->element[i];
        if (!text_equal(e->name, name) || e->part == CIRCUIT_COIL)
            continue;
        bool open = text_is(set->word, "open") || text_is(set->word, "off");
        if (e->part == CIRCUIT_CONTACT && circuit_solve_rests(e))
            open = !open;
        w->open[i] = open;
        w->peak[i] =
            text_is(set->word, "starting") || text_is(set->word, "stalled");
        if (!w->peak[i] || w->part[i].law == LAWS ||
            (w->part[i].starting != NULL && w->part[i].at != NULL))
            continue;
        diag_add(w->v->c->diags, DIAG_CIRCUIT_FIGURE, set->at,
                 "the load of %s says no starting current", w->part[i].name);
        return false;
    }
    return true;
}

static bool is_told(const struct circuit_work *w, struct text name) {
    const struct circuit_state *s = &w->c->state[w->state];
    for (size_t i = 0; i < s->set_count; i++)
        if (s->set[i].element != CIRCUIT_NONE &&
            text_equal(w->c->element[s->set[i].element].name, name))
            return true;
    return false;
}

static size_t coil_of(const struct circuit_work *w, struct text name) {
    for (size_t i = 0; i < w->c->element_count; i++)
        if (w->c->element[i].part == CIRCUIT_COIL && w->part[i].law != LAWS &&
            text_equal(w->c->element[i].name, name))
            return i;
    return SIZE_MAX;
}

/* Contacts follow their coils, where the state does not say it itself. True:
 * one has moved. */
static bool follow_coils(struct circuit_work *w, bool solved) {
    bool moved = false;
    double supply = w->part[w->c->element_count].figure[0]->nominal;
    const struct relay_coil *kind = relay_coil_for(supply);
    double pulls = kind == NULL ? PULLS * supply : kind->operates;
    for (size_t i = 0; i < w->c->element_count; i++) {
        const struct circuit_element *e = &w->c->element[i];
        if (e->part != CIRCUIT_CONTACT || is_told(w, e->name))
            continue;
        size_t coil = coil_of(w, e->name);
        if (coil == SIZE_MAX)
            continue;
        double u = solved ? w->solution.volt[w->from[coil]] -
                                w->solution.volt[w->to[coil]]
                          : 0;
        bool pulled = fabs(u) >= pulls;
        bool open = circuit_solve_rests(e) ? pulled : !pulled;
        if (open != w->open[i]) {
            moved = true;
            w->chatters = i;
        }
        w->open[i] = open;
    }
    return moved;
}

size_t circuit_solve_figures(const struct circuit_work *w, size_t part,
                             const struct quantity **figure) {
    const struct circuit_piece *p = &w->part[part];
    for (size_t k = 0; k < p->figure_count; k++)
        figure[k] = p->figure[k];
    if (w->peak[part]) {
        figure[0] = p->starting;
        figure[1] = p->at;
        return 2;
    }
    if (part == w->c->element_count && w->at != NULL)
        figure[0] = w->at;
    return p->figure_count;
}

size_t circuit_solve_from(const struct corner *corner, size_t count,
                          size_t serial) {
    size_t low = 0, high = count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (corner[middle].root->serial < serial)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

/* Sums and products of figures, `run + 0.3 m`, go without a graph of their own
 * down to here. */
enum { PLAIN_DEPTH = 4 };

static double figure_at(const struct quantity *q, const struct corner *corner,
                        size_t count, int depth) {
    if (q->op == QUANTITY_ROOT) {
        size_t i = circuit_solve_from(corner, count, q->serial);
        return i < count && corner[i].root == q ? corner[i].value : q->nominal;
    }
    if (q->bounds->first > q->bounds->last) /* exact */
        return q->nominal;
    bool plain = q->op == QUANTITY_ADD || q->op == QUANTITY_SUBTRACT ||
                 q->op == QUANTITY_MULTIPLY;
    if (!plain || depth == PLAIN_DEPTH)
        return range_at(q, corner, count);
    double a = figure_at(q->arg[0], corner, count, depth + 1);
    double b = figure_at(q->arg[1], corner, count, depth + 1);
    return q->op == QUANTITY_ADD        ? a + b
           : q->op == QUANTITY_SUBTRACT ? a - b
                                        : a * b;
}

double circuit_solve_figure(const struct quantity *q,
                            const struct corner *corner, size_t count) {
    if (count == 0)
        return q->nominal;
    return figure_at(q, corner, count, 0);
}

struct circuit_part_law circuit_solve_law(const struct circuit_work *w,
                                          size_t part, const double *x) {
    struct circuit_piece p = w->part[part];
    if (w->peak[part]) {
        p.law = LAW_RESISTANCE;
        p.figure_count = 2;
    }
    return circuit_part_law(&p, x);
}

static void make_net(struct circuit_work *w, const struct corner *corner,
                     size_t count) {
    size_t n = 0;
    for (size_t i = 0; i < w->part_count; i++) {
        const struct quantity *figure[PART_FIGURES];
        double x[PART_FIGURES] = {0};
        w->in_net[i] = SIZE_MAX;
        if (w->part[i].law == LAWS || w->open[i])
            continue;
        size_t figures = circuit_solve_figures(w, i, figure);
        for (size_t k = 0; k < figures; k++)
            x[k] = circuit_solve_figure(figure[k], corner, count);
        w->in_net[i] = n;
        w->of_net[n] = i;
        w->net_part[n++] =
            (struct net_part){w->from[i], w->to[i], circuit_solve_law(w, i, x)};
    }
    w->net = (struct net){w->net_part, n + w->strays, w->node_count};
}

static enum net_fault solve_once(struct circuit_work *w) {
    if (w->work == NULL)
        w->work = arena_alloc(
            w->v->c->arena,
            circuit_net_room(w->node_count, w->part_count + w->node_count),
            sizeof *w->work);
    return circuit_net_solve(&w->net, w->work, &w->solution);
}

/* Whether a load of constant power is cut off by the state: without it nothing
 * is across it. It then stays as a leak, which draws nothing. */
static bool is_cut_off(struct circuit_work *w, size_t net_part) {
    struct net_part *p = &w->net_part[net_part];
    p->law = (struct circuit_part_law){LAW_RESISTANCE, {STRAY, 0, 0}};
    enum net_fault fault = solve_once(w);
    const double *volt = w->solution.volt;
    return (fault == NET_SOLVED || fault == NET_UNFED) &&
           fabs(volt[p->from] - volt[p->to]) < 1;
}

/* What a state cuts off floats rightly, and leaks to minus. */
static enum net_fault solve(struct circuit_work *w, bool cut) {
    for (;;) {
        enum net_fault fault = solve_once(w);
        size_t where = w->solution.where;
        if (fault == NET_UNFED && cut) {
            struct circuit_part_law law = w->net_part[where].law;
            if (is_cut_off(w, where))
                continue;
            w->net_part[where].law = law;
            return solve_once(w);
        }
        if (fault != NET_FLOATS || !cut)
            return fault;
        size_t n = w->net.part_count++;
        w->strays++;
        w->work[0] = 0; /* another net */
        w->of_net[n] = SIZE_MAX;
        w->net_part[n] =
            (struct net_part){where, 0, {LAW_RESISTANCE, {STRAY, 0, 0}}};
    }
}

static const char *name_of(const struct circuit_work *w, size_t net_part) {
    size_t p = net_part < w->net.part_count ? w->of_net[net_part] : SIZE_MAX;
    return p == SIZE_MAX ? "a part" : w->part[p].name;
}

static size_t part_at_node(const struct circuit_work *w, size_t node) {
    for (size_t i = 0; i < w->c->element_count; i++)
        if (w->part[i].law != LAWS && (w->from[i] == node || w->to[i] == node))
            return i;
    return SIZE_MAX;
}

/* The line of a part; of a supply the circuit as a whole. */
static struct span place_of_part(const struct circuit_work *w, size_t part) {
    return part < w->c->element_count ? w->part[part].element->at : w->b->at;
}

static const char *state_words(const struct circuit_work *w) {
    struct text state = w->c->state[w->state].name;
    return state.len == 0 ? ""
                          : arena_printf(w->v->c->arena, "; state: %.*s",
                                         (int)state.len, state.start);
}

/* The elements that carry next to all of the largest current, in order; *first
 * is the first of them. */
static const char *way_of_short(const struct circuit_work *w, size_t *first) {
    struct buf names = buf_in(w->v->c->arena);
    double most = 0;
    for (size_t n = 0; n < w->net.part_count; n++)
        if (w->of_net[n] < w->c->element_count)
            most = fmax(most, fabs(w->solution.current[n]));
    for (size_t n = 0; n < w->net.part_count; n++) {
        size_t i = w->of_net[n];
        if (i >= w->c->element_count ||
            fabs(w->solution.current[n]) < 0.9 * most)
            continue;
        if (names.len == 0)
            *first = i;
        buf_printf(&names, "%s%s", names.len > 0 ? ", " : "", w->part[i].name);
    }
    return buf_cstr(&names);
}

static void report(struct circuit_work *w, enum net_fault fault) {
    struct arena *a = w->v->c->arena;
    const char *why = "no solution was found";
    size_t where = w->solution.where;
    size_t part = fault == NET_FLOATS         ? part_at_node(w, where)
                  : where < w->net.part_count ? w->of_net[where]
                                              : SIZE_MAX;
    switch (fault) {
    case NET_SOLVED:
        return;
    case NET_FLOATS:
        why = arena_printf(a, "%s floats: no path joins it to %s -",
                           part < w->part_count ? w->part[part].name : "a part",
                           w->part[w->c->element_count].name);
        break;
    case NET_SHORTED:
        why = arena_printf(a,
                           "%s is shorted: less than half of its voltage "
                           "is left; the current goes through %s",
                           name_of(w, where), way_of_short(w, &part));
        break;
    case NET_UNFED:
        why = arena_printf(a,
                           "%s, a load of constant power, cannot be fed: its "
                           "voltage breaks down",
                           name_of(w, where));
        break;
    case NET_DIVERGES:
        why = arena_printf(a, "no solution was found; %s does not settle",
                           name_of(w, where));
        break;
    case NET_LARGE:
        why = arena_printf(a, "it has more than %d points and joints",
                           (int)NET_NODES_MAX);
        break;
    }
    diag_add(w->v->c->diags, DIAG_CIRCUIT_UNSOLVED, place_of_part(w, part),
             "%s%s", why, state_words(w));
}

/* A relay that takes its own feed away. */
static void report_chatter(const struct circuit_work *w) {
    const struct circuit_element *e = w->part[w->chatters].element;
    diag_add(w->v->c->diags, DIAG_CIRCUIT_UNSOLVED, e->at,
             "relay %.*s pulls and drops without end: its contact changes what "
             "feeds its own coil%s",
             (int)e->name.len, e->name.start, state_words(w));
}

static bool any_open(const struct circuit_work *w) {
    for (size_t i = 0; i < w->part_count; i++)
        if (w->open[i] || (i >= w->c->element_count && w->part[i].law == LAWS))
            return true;
    return false;
}

/* Of a large circuit only the solution is copied, not the room for its factors:
 * enough while no other state is put on. */
enum { COPIED_MAX = 200000 }; /* doubles */

static size_t room_of(const struct circuit_work *w) {
    size_t all = circuit_net_room(w->node_count, w->part_count + w->node_count);
    return all <= COPIED_MAX ? all
                             : 1 + 3 * w->node_count + 3 * w->net.part_count;
}

static bool is_copied(const struct circuit_work *w, size_t state) {
    return w->memo[state].known &&
           (w->ordered == state ||
            circuit_net_room(w->node_count, w->part_count + w->node_count) <=
                COPIED_MAX);
}

static void *copied(struct arena *a, const void *from, size_t count,
                    size_t size) {
    void *to = arena_alloc(a, count + 1, size);
    memcpy(to, from, count * size);
    return to;
}

static void keep_state(struct circuit_work *w) {
    struct arena *a = w->v->c->arena;
    struct circuit_memo *m = &w->memo[w->state];
    size_t parts = w->part_count, room = parts + w->node_count;
    *m = (struct circuit_memo){
        .known = true,
        .root = m->root,
        .root_count = m->root_count,
        .open = copied(a, w->open, parts, sizeof *w->open),
        .peak = copied(a, w->peak, parts, sizeof *w->peak),
        .supply = copied(a, w->part + w->c->element_count, w->c->supply_count,
                         sizeof *w->part),
        .net = w->net,
        .net_part = copied(a, w->net_part, room, sizeof *w->net_part),
        .of_net = copied(a, w->of_net, room, sizeof *w->of_net),
        .in_net = copied(a, w->in_net, parts, sizeof *w->in_net),
        .strays = w->strays,
        .work = copied(a, w->work, room_of(w), sizeof *w->work),
        .solution = w->solution};
}

static void recall_state(struct circuit_work *w) {
    const struct circuit_memo *m = &w->memo[w->state];
    size_t parts = w->part_count, room = parts + w->node_count;
    w->net = m->net;
    memcpy(w->open, m->open, parts * sizeof *w->open);
    memcpy(w->peak, m->peak, parts * sizeof *w->peak);
    memcpy(w->part + w->c->element_count, m->supply,
           w->c->supply_count * sizeof *w->part);
    memcpy(w->net_part, m->net_part, room * sizeof *w->net_part);
    memcpy(w->of_net, m->of_net, room * sizeof *w->of_net);
    memcpy(w->in_net, m->in_net, parts * sizeof *w->in_net);
    memcpy(w->work, m->work, room_of(w) * sizeof *w->work);
    w->ordered = w->state;
    w->strays = m->strays;
    w->solution = m->solution;
}

static bool solve_state(struct circuit_work *w) {
    const struct circuit *c = w->c;
    size_t state = w->state;
    bool good = true;
    memset(w->open, 0, w->part_count * sizeof *w->open);
    memset(w->peak, 0, w->part_count * sizeof *w->peak);
    for (size_t s = 0; s < c->supply_count; s++)
        good = circuit_part_supply(w->v, w->b, w->variant, &c->supply[s],
                                   (struct text){NULL, 0},
                                   &w->part[c->element_count + s]) &&
               good;
    for (size_t i = 0; i < c->state[state].set_count && good; i++)
        good = put_word(w, &c->state[state].set[i]);
    if (!good)
        return false;
    enum net_fault fault = NET_SOLVED;
    bool relays = w->part[c->element_count].law != LAWS;
    bool moved = relays && follow_coils(w, false);
    for (int round = 0; round == 0 || (moved && round < RELAY_ROUNDS);
         round++) {
        w->strays = 0;
        if (w->work != NULL)
            w->work[0] = 0;
        make_net(w, NULL, 0);
        fault = solve(w, any_open(w));
        moved = fault == NET_SOLVED && relays && follow_coils(w, true);
    }
    if (moved)
        report_chatter(w);
    else
        report(w, fault);
    return fault == NET_SOLVED && !moved;
}

static void no_slopes(struct circuit_work *w) {
    w->unkept.known = false;
    w->unkept.count = 0;
    w->slopes = &w->unkept;
}

bool circuit_solve_state(struct circuit_work *w, size_t state,
                         const struct quantity *at) {
    w->state = state;
    w->at = at;
    if (at == NULL && is_copied(w, state)) {
        recall_state(w);
        w->slopes = &w->memo[state].slopes;
        return true;
    }
    bool solved = solve_state(w);
    no_slopes(w);
    w->ordered = solved && at == NULL ? state : SIZE_MAX;
    if (solved && at == NULL) {
        keep_state(w);
        w->slopes = &w->memo[state].slopes;
    }
    return solved;
}

void circuit_solve_all_on(struct circuit_work *w) {
    for (size_t s = 0; s < w->c->supply_count; s++)
        circuit_part_supply(w->v, w->b, w->variant, &w->c->supply[s],
                            (struct text){NULL, 0},
                            &w->part[w->c->element_count + s]);
}

/* A corner of a state that was solved, by its figures; fault: it was not. */
struct circuit_corner {
    struct circuit_corner *next; /* of the same remainder */
    double *value;               /* of each root */
    enum net_fault fault;
    double *kept;
    struct net_part *net_part;
    struct circuit_slopes slopes;
};

static size_t remainder_of(const struct corner *corner, size_t count) {
    uint64_t sum = 0, bits = 0;
    for (size_t i = 0; i < count; i++) {
        memcpy(&bits, &corner[i].value, sizeof bits);
        sum = (sum ^ bits) * 0x9E3779B97F4A7C15u;
        sum ^= sum >> 32;
    }
    return sum % CORNER_LISTS;
}

static bool is_corner(const struct circuit_corner *k,
                      const struct corner *corner, size_t count) {
    for (size_t i = 0; i < count; i++)
        if (k->value[i] != corner[i].value)
            return false;
    return true;
}

static void keep_corner(struct circuit_work *w, struct circuit_corner **list,
                        const struct corner *corner, size_t count,
                        enum net_fault fault) {
    struct arena *a = w->v->c->arena;
    struct circuit_corner *k = arena_alloc(a, 1, sizeof *k);
    *k = (struct circuit_corner){
        *list, arena_alloc(a, count + 1, sizeof *k->value), fault,
        arena_alloc(a, circuit_net_kept(&w->net), sizeof *k->kept),
        copied(a, w->net_part, w->net.part_count, sizeof *w->net_part)};
    for (size_t i = 0; i < count; i++)
        k->value[i] = corner[i].value;
    circuit_net_keep(&w->net, w->work, k->kept);
    *list = k;
    w->slopes = &k->slopes;
}

/* Many results have their ends at the same corners: each is solved once. */
bool circuit_solve_corner(struct circuit_work *w, const struct corner *corner,
                          size_t count) {
    struct circuit_memo *m = &w->memo[w->state];
    bool kept = w->at == NULL && m->known && m->root == corner &&
                room_of(w) <= COPIED_MAX / 10;
    struct circuit_corner **list = kept
                                       ? &m->corner[remainder_of(corner, count)]
                                       : NULL,
                          *k = kept ? *list : NULL;
    while (k != NULL && !is_corner(k, corner, count))
        k = k->next;
    if (k == NULL) {
        make_net(w, corner, count);
        no_slopes(w);
        enum net_fault fault = solve(w, any_open(w));
        if (kept)
            keep_corner(w, list, corner, count, fault);
        return fault == NET_SOLVED;
    }
    memcpy(w->net_part, k->net_part, w->net.part_count * sizeof *w->net_part);
    w->solution = circuit_net_recall(&w->net, w->work, k->kept);
    w->slopes = &k->slopes;
    return k->fault == NET_SOLVED;
}

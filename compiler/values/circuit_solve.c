/* circuit_solve.c - a circuit of one variant as a net of two-terminal parts. */
#include "values/circuit_solve.h"

#include "base/arena.h"
#include "base/diag.h"
#include "calc/relay.h"
#include "values/circuit_crank.h"
#include "values/circuit_dead.h"
#include "values/circuit_ground.h"
#include "values/circuit_look.h"
#include "values/circuit_memo.h"
#include "values/circuit_worst.h"
#include "values/self_limit.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

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

/* A path that is written from minus to plus has its voltages and currents the
 * other way round, so that what a load gets is above 0. Not with a diode in it,
 * which stands as it is written. */
static void turn_branch(struct circuit_work *w,
                        const struct circuit_branch *b) {
    for (size_t i = b->first; i < b->first + b->count; i++)
        if (w->c->element[i].part == CIRCUIT_DIODE)
            return;
    for (size_t i = b->first; i < b->first + b->count; i++) {
        size_t from = w->from[i];
        w->from[i] = w->to[i];
        w->to[i] = from;
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
    bool *back = arena_alloc(w->v->c->arena, c->branch_count + 1, sizeof *back);
    circuit_look_back(c, back);
    for (size_t i = 0; i < c->branch_count; i++) {
        place_branch(w, &c->branch[i]);
        if (back[i])
            turn_branch(w, &c->branch[i]);
    }
}

static const struct block **supplies_of(const struct circuit_work *w) {
    size_t count = w->c->supply_count;
    const struct block **list =
        arena_alloc(w->v->c->arena, count + 1, sizeof(*list));
    for (size_t s = 0; s < count; s++)
        list[s] =
            values_block(w->v, w->b->scope, w->c->supply[s].name, "supply");
    return list;
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
    w->worst = arena_alloc(a, count, sizeof(*w->worst));
    w->from = arena_alloc(a, count, sizeof *w->from);
    w->to = arena_alloc(a, count, sizeof *w->to);
    w->node = arena_alloc(a, b->circuit->point_count, sizeof *w->node);
    w->supply = supplies_of(w);
    if (!circuit_part_read(v, b, variant, w->part))
        return NULL;
    place(w);
    if (!circuit_part_is_found(v, b, variant) &&
        (circuit_dead_report(w) || circuit_ground_report(w)))
        return NULL;
    w->memo = arena_alloc(a, 2 * b->circuit->state_count, sizeof *w->memo);
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

double circuit_solve_coil_volt(const struct circuit_work *w, size_t coil) {
    const struct circuit_piece *p = &w->part[coil];
    const struct quantity *supply = w->part[w->c->element_count].figure[0];
    return p->figure_count == 2 && p->figure[1] != NULL ? p->figure[1]->nominal
                                                        : supply->nominal;
}

static double pulls_at(const struct circuit_work *w, size_t coil) {
    double volt = circuit_solve_coil_volt(w, coil);
    const struct relay_coil *kind = relay_coil_for(volt);
    return kind == NULL ? PULLS * volt : kind->operates;
}

/* Contacts follow their coils, where the state does not say it itself. True:
 * one has moved. */
static bool follow_coils(struct circuit_work *w, bool solved) {
    bool moved = false;
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
        bool pulled = fabs(u) >= pulls_at(w, coil);
        bool open = circuit_solve_rests(e) ? pulled : !pulled;
        if (open != w->open[i]) {
            moved = true;
            w->chatters = i;
        }
        w->open[i] = open;
    }
    return moved;
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

static const char *shorted_words(const struct circuit_work *w,
                                 size_t net_part) {
    const struct circuit_piece *p = &w->part[w->of_net[net_part]];
    return p->law != LAW_LIMITED
               ? "shorted"
               : arena_printf(
                     w->v->c->arena,
                     "shorted, or its %s are less than what hangs on "
                     "it takes",
                     figure_of(w->v->c->arena, p->figure[2], FIGURE_PLAIN));
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
                           "%s is %s: less than half of its voltage "
                           "is left; the current goes through %s",
                           name_of(w, where), shorted_words(w, where),
                           way_of_short(w, &part));
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

/* Solves, and again as long as relays move; false after a message. */
static bool settle(struct circuit_work *w) {
    enum net_fault fault = NET_SOLVED;
    bool relays = w->part[w->c->element_count].law != LAWS;
    bool moved = relays && follow_coils(w, false);
    for (int round = 0; round == 0 || (moved && round < RELAY_ROUNDS);
         round++) {
        w->strays = 0;
        if (w->work != NULL)
            w->work[0] = 0;
        circuit_solve_make(w, NULL, 0);
        fault = circuit_solve_net(w, circuit_memo_open(w));
        moved = fault == NET_SOLVED && relays && follow_coils(w, true);
    }
    if (moved)
        report_chatter(w);
    else
        report(w, fault);
    return fault == NET_SOLVED && !moved;
}

/* What the state says, of supplies and elements; false after a message. */
static bool put_state(struct circuit_work *w) {
    const struct circuit *c = w->c;
    size_t state = w->state;
    bool good = true;
    memset(w->open, 0, w->part_count * sizeof *w->open);
    memset(w->peak, 0, w->part_count * sizeof *w->peak);
    memset(w->start, 0, w->part_count * sizeof *w->start);
    w->span = NULL;
    for (size_t s = 0; s < c->supply_count; s++)
        good = circuit_part_supply(w->v, w->b, w->variant, &c->supply[s],
                                   (struct text){NULL, 0},
                                   &w->part[c->element_count + s]) &&
               good;
    for (size_t i = 0; i < c->state[state].set_count && good; i++)
        good = put_word(w, &c->state[state].set[i]);
    return good;
}

/* A start meets wire as hot as the states that last have left it: each is put
 * on once for that, before the first is solved with the heat of a start. */
static void find_warm(struct circuit_work *w) {
    w->warm = arena_alloc(w->v->c->arena, w->part_count, sizeof *w->warm);
    bool starts = circuit_crank_loads(w);
    for (size_t s = 0; s < w->c->state_count; s++)
        starts = starts || circuit_worst_is_short(&w->c->state[s]);
    for (size_t s = 0; s < w->c->state_count && starts; s++) {
        w->state = s;
        if (circuit_worst_is_short(&w->c->state[s]) || !put_state(w) ||
            !settle(w))
            continue;
        circuit_crank_share(w);
        circuit_crank_warm(w);
    }
}

static bool solve_state(struct circuit_work *w) {
    if (!put_state(w) || !settle(w))
        return false;
    /* What the start heats is known once it is known what flows where. */
    return !circuit_crank_share(w) || settle(w);
}

bool circuit_solve_state(struct circuit_work *w, size_t state,
                         const struct quantity *at) {
    w->state = state;
    w->at = at;
    if (circuit_memo_recall(w))
        return true;
    circuit_memo_no_slopes(w);
    if (w->warm == NULL) {
        w->at = NULL;
        find_warm(w);
        w->state = state;
        w->at = at;
    }
    bool solved = solve_state(w);
    if (solved)
        circuit_memo_keep(w);
    return solved;
}

void circuit_solve_all_on(struct circuit_work *w) {
    w->nominal = false;
    for (size_t s = 0; s < w->c->supply_count; s++)
        circuit_part_supply(w->v, w->b, w->variant, &w->c->supply[s],
                            (struct text){NULL, 0},
                            &w->part[w->c->element_count + s]);
}

const struct block *circuit_solve_supply(const struct circuit_work *w,
                                         size_t supply) {
    return w->supply[supply - w->c->element_count];
}

const struct quantity *circuit_solve_output(const struct circuit_work *w,
                                            size_t supply) {
    return self_limit_output(w->v, circuit_solve_supply(w, supply), w->variant);
}

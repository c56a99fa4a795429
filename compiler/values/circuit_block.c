/* circuit_block.c - results of a circuit with their ends.
 *
 * The ends of a result are sought at corners of the roots' ranges: the adjoint
 * tells which way each root moves the result; at the corner that this names the
 * signs are looked at again, and roots that disagree are turned. Heat in a
 * joint has its peak where the joint equals what feeds it, so that its own
 * resistance is tried all along its range. */
#include "values/circuit_block.h"

#include "base/arena.h"
#include "base/diag.h"
#include "calc/peak.h"
#include "calc/rounding.h"
#include "source/circuit_tree.h"
#include "source/list.h"
#include "values/circuit_fault.h"
#include "values/circuit_solve.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { TURNS_MAX = 6 };

struct task {
    struct circuit_work *w;
    const struct circuit_output *output;
    size_t part;           /* of an element's result */
    struct corner *corner; /* every root with width, at its value of now */
    size_t count;
    double *weight, *by, *slope;
    double *first; /* slopes at the nominal figures, for both ends */
};

static double across(const struct circuit_work *w, size_t part) {
    return w->solution.volt[w->from[part]] - w->solution.volt[w->to[part]];
}

/* An element's result as a function of the voltage across it. */
static double of_part(const struct task *t, double u, const double *figure) {
    double slope;
    struct circuit_part_law law = circuit_solve_law(t->w, t->part, figure);
    double current = circuit_law_current(&law, u, &slope);
    switch (t->output->result) {
    case RESULT_VOLTAGE:
    case RESULT_DROP:
    case RESULT_LOOP:
    case RESULT_LOSS:
    case RESULT_POINT:
        return u;
    case RESULT_CURRENT:
        return current;
    case RESULT_HEAT:
        return u * current;
    case RESULT_FAULT:
    case RESULT_HOTTEST:
        break;
    case RESULT_TEMPERATURE:
        return circuit_law_temperature(
            &law, fabs(current), figure[2],
            t->w->part[t->part].run->ampacity.use.material);
    }
    return NAN;
}

static size_t figures_now(const struct task *t, size_t part, double *x,
                          const struct quantity **q) {
    size_t n = circuit_solve_figures(t->w, part, q);
    for (size_t k = 0; k < n; k++)
        x[k] = circuit_solve_figure(q[k], t->corner, t->count);
    return n;
}

static bool is_loss(const struct task *t) {
    return t->output->result == RESULT_LOOP || t->output->result == RESULT_LOSS;
}

static bool is_open(const struct task *t) {
    return t->w->in_net[t->part] == SIZE_MAX;
}

static double result_now(const struct task *t) {
    const struct circuit_work *w = t->w;
    const struct circuit_output *o = t->output;
    size_t supply = w->c->element_count;
    if (o->result == RESULT_POINT)
        return w->solution.volt[w->node[o->index]];
    double u = across(w, t->part), x[PART_FIGURES] = {0};
    const struct quantity *q[PART_FIGURES];
    if (is_loss(t))
        return -across(w, supply) - u;
    if (is_open(t) && o->result != RESULT_VOLTAGE && o->result != RESULT_DROP)
        return 0;
    figures_now(t, t->part, x, q);
    return of_part(t, u, x);
}

static void weigh(const struct task *t, size_t part, double weight) {
    t->weight[t->w->from[part]] += weight;
    t->weight[t->w->to[part]] -= weight;
}

static double step_of(double x) {
    return fabs(x) * 1e-5 + 1e-9;
}

/* How the result moves with a node's voltage. */
static void weigh_result(const struct task *t) {
    const struct circuit_work *w = t->w;
    memset(t->weight, 0, w->node_count * sizeof *t->weight);
    if (t->output->result == RESULT_POINT) {
        t->weight[w->node[t->output->index]] = 1;
        return;
    }
    if (is_loss(t)) {
        weigh(t, w->c->element_count, -1);
        weigh(t, t->part, -1);
        return;
    }
    double u = across(w, t->part), x[PART_FIGURES] = {0}, h = step_of(u);
    const struct quantity *q[PART_FIGURES];
    figures_now(t, t->part, x, q);
    weigh(t, t->part,
          is_open(t) ? 1
                     : (of_part(t, u + h, x) - of_part(t, u - h, x)) / 2 / h);
}

/* How a part's current moves with its figure k, at its voltage. */
static double current_by(const struct task *t, size_t part, size_t k,
                         double *x) {
    double at = x[k], h = step_of(at), u = across(t->w, part), slope;
    x[k] = at + h;
    struct circuit_part_law more = circuit_solve_law(t->w, part, x);
    x[k] = at - h;
    struct circuit_part_law less = circuit_solve_law(t->w, part, x);
    x[k] = at;
    return (circuit_law_current(&more, u, &slope) -
            circuit_law_current(&less, u, &slope)) /
           (2 * h);
}

/* How the result of a part moves with its own figure k, at its voltage. */
static double result_by(const struct task *t, size_t k, double *x) {
    double at = x[k], h = step_of(at), u = across(t->w, t->part);
    x[k] = at + h;
    double high = of_part(t, u, x);
    x[k] = at - h;
    double low = of_part(t, u, x);
    x[k] = at;
    return (high - low) / (2 * h);
}

/* How a figure moves with a root; 1 where it is the root itself. */
static double by_root(const struct task *t, const struct quantity *q,
                      size_t root) {
    struct corner *c = &t->corner[root];
    if (q->op == QUANTITY_ROOT)
        return q == c->root ? 1 : 0;
    if (c->root->serial < q->bounds->first || c->root->serial > q->bounds->last)
        return 0;
    double at = c->value, width = c->root->range.high - c->root->range.low;
    c->value = c->root->range.high;
    double high = circuit_solve_figure(q, t->corner, t->count);
    c->value = c->root->range.low;
    double low = circuit_solve_figure(q, t->corner, t->count);
    c->value = at;
    return (high - low) / width;
}

/* Calls for each root below each figure of a part: how the figure moves. */
typedef void each_root(const struct task *t, size_t part, size_t root,
                       double by_figure, double by_root);

static void over_roots(const struct task *t, size_t part,
                       double (*by_figure)(const struct task *t, size_t part,
                                           size_t k, double *x),
                       each_root *each) {
    const struct quantity *q[PART_FIGURES];
    double x[PART_FIGURES] = {0};
    size_t n = figures_now(t, part, x, q);
    for (size_t k = 0; k < n; k++) {
        bool root = q[k]->op == QUANTITY_ROOT;
        size_t first = root ? q[k]->serial : q[k]->bounds->first;
        size_t last = root ? q[k]->serial : q[k]->bounds->last;
        size_t r = circuit_solve_from(t->corner, t->count, first);
        if (r == t->count || t->corner[r].root->serial > last)
            continue; /* exact */
        double figure = by_figure(t, part, k, x);
        for (; r < t->count && t->corner[r].root->serial <= last; r++)
            each(t, part, r, figure, by_root(t, q[k], r));
    }
}

static void add_current(const struct task *t, size_t part, size_t root,
                        double by_figure, double by_root) {
    struct circuit_slopes *s = t->w->slopes;
    if (by_figure * by_root == 0)
        return;
    s->list = list_grown(t->w->v->c->arena, s->list, s->count, &s->room,
                         sizeof *s->list);
    s->list[s->count++] =
        (struct circuit_slope){part, root, by_figure * by_root};
}

static void add_own(const struct task *t, size_t part, size_t root,
                    double by_figure, double by_root) {
    (void)part;
    t->slope[root] += by_figure * by_root;
}

static double own_by(const struct task *t, size_t part, size_t k, double *x) {
    (void)part;
    return result_by(t, k, x);
}

static void find_slopes(const struct task *t) {
    const struct circuit_work *w = t->w;
    struct circuit_slopes *s = w->slopes;
    memset(t->slope, 0, t->count * sizeof *t->slope);
    weigh_result(t);
    circuit_net_adjoint(&w->net, w->work, t->weight, t->by);
    for (size_t i = 0; i < w->part_count && !s->known; i++)
        if (w->in_net[i] != SIZE_MAX)
            over_roots(t, i, current_by, add_current);
    s->known = true;
    for (size_t i = 0; i < s->count; i++) {
        const struct circuit_slope *one = &s->list[i];
        t->slope[one->root] +=
            (t->by[w->to[one->part]] - t->by[w->from[one->part]]) *
            one->current;
    }
    if (t->output->result != RESULT_POINT && !is_loss(t) && !is_open(t))
        over_roots(t, t->part, own_by, add_own);
}

/* Puts roots at their ends by the slopes; true when one moved. */
static bool turn(const struct task *t, bool high) {
    bool moved = false;
    for (size_t r = 0; r < t->count; r++) {
        struct ends range = t->corner[r].root->range;
        if (t->slope[r] == 0)
            continue;
        double to = (t->slope[r] > 0) == high ? range.high : range.low;
        moved = moved || to != t->corner[r].value;
        t->corner[r].value = to;
    }
    return moved;
}

static void keep(double *best, double found, bool high) {
    if (isfinite(found) && (high ? found > *best : found < *best))
        *best = found;
}

/* One root of a task moved alone. */
struct moved {
    const struct task *t;
    struct corner *c;
    double *best;
    bool high;
};

/* The result with the root at e^x, upside down for a low end. */
static double moved_to(void *of, double x) {
    const struct moved *m = of;
    m->c->value =
        fmax(m->c->root->range.low, fmin(exp(x), m->c->root->range.high));
    if (!circuit_solve_corner(m->t->w, m->t->corner, m->t->count))
        return NAN;
    double y = result_now(m->t);
    keep(m->best, y, m->high);
    return m->high ? y : -y;
}

/* A joint's own resistance through its range, even in the decades. */
static void step_through(const struct task *t, double *best, bool high) {
    if (t->output->result != RESULT_HEAT || is_open(t))
        return;
    const struct quantity *q[PART_FIGURES];
    size_t n = circuit_solve_figures(t->w, t->part, q);
    for (size_t r = 0; r < t->count; r++) {
        struct corner *c = &t->corner[r];
        struct ends range = c->root->range;
        bool own = false;
        for (size_t k = 0; k < n; k++)
            own = own || q[k] == c->root;
        if (!own || range.low <= 0)
            continue;
        struct moved m = {t, c, best, high};
        double back = c->value;
        peak_find(moved_to, &m, log(range.low), log(range.high));
        c->value = back;
    }
}

static double end_of(const struct task *t, double nominal, bool high) {
    double best = nominal;
    bool solved = true;
    for (size_t r = 0; r < t->count; r++)
        t->corner[r].value = t->corner[r].root->nominal;
    for (int i = 0; solved && i < TURNS_MAX; i++) {
        if (i == 0)
            memcpy(t->slope, t->first, t->count * sizeof *t->slope);
        else
            find_slopes(t);
        if (!turn(t, high))
            break;
        solved = circuit_solve_corner(t->w, t->corner, t->count);
        if (solved)
            keep(&best, result_now(t), high);
    }
    if (!solved)
        return NAN;
    step_through(t, &best, high);
    return best;
}

static int by_serial(const void *left, const void *right) {
    const struct corner *a = left, *b = right;
    return (a->root->serial > b->root->serial) -
           (a->root->serial < b->root->serial);
}

static void collect_roots(struct task *t) {
    struct arena *a = t->w->v->c->arena;
    size_t room = 0;
    for (size_t i = 0; i < t->w->part_count; i++) {
        const struct quantity *q[PART_FIGURES], *const *root;
        if (t->w->in_net[i] == SIZE_MAX)
            continue;
        size_t n = circuit_solve_figures(t->w, i, q);
        for (size_t k = 0; k < n; k++) {
            size_t roots = range_roots(a, q[k], &root);
            for (size_t r = 0; r < roots; r++) {
                if (root[r]->range.low == root[r]->range.high)
                    continue;
                if (t->count == room) {
                    room = room == 0 ? 32 : room * 2;
                    t->corner = arena_grow(a, t->corner, t->count, room,
                                           sizeof *t->corner);
                }
                t->corner[t->count++] =
                    (struct corner){root[r], root[r]->nominal};
            }
        }
    }
    if (t->count > 1)
        qsort(t->corner, t->count, sizeof *t->corner, by_serial);
    size_t kept = 0;
    for (size_t i = 0; i < t->count; i++)
        if (kept == 0 || t->corner[i].root != t->corner[kept - 1].root)
            t->corner[kept++] = t->corner[i];
    t->count = kept;
}

/* Every root with width below the figures, once, in order; kept for the next
 * result of the state. */
static void find_roots(struct task *t) {
    struct circuit_memo *m = &t->w->memo[t->w->state];
    if (t->w->at != NULL || !m->known) {
        collect_roots(t);
        return;
    }
    if (m->root == NULL) {
        collect_roots(t);
        m->root_count = t->count;
        m->root = arena_alloc(t->w->v->c->arena, t->count + 1, sizeof *m->root);
        if (t->count > 0)
            memcpy(m->root, t->corner, t->count * sizeof *m->root);
    }
    t->count = m->root_count;
    t->corner = m->root;
    for (size_t r = 0; r < t->count; r++)
        t->corner[r].value = t->corner[r].root->nominal;
}

static struct circuit_work *opened(struct values *v, const struct block *b,
                                   size_t variant) {
    struct block_slots *own = &v->of_block[b->index];
    if (own->state[variant] == SLOT_UNTOUCHED) {
        own->state[variant] = SLOT_AT_WORK;
        own->circuit[variant] = circuit_solve_open(v, b, variant);
        if (own->circuit[variant] != NULL)
            for (size_t s = 0; s < b->circuit->state_count; s++)
                if (!circuit_solve_state(own->circuit[variant], s, NULL)) {
                    own->circuit[variant] = NULL;
                    break;
                }
        own->state[variant] = SLOT_DONE;
    } else if (own->state[variant] == SLOT_AT_WORK) {
        diag_add(v->c->diags, DIAG_NAME_CYCLE, b->at, "'%.*s'",
                 (int)b->name.len, b->name.start);
        return NULL;
    }
    return own->circuit[variant];
}

/* The element of the name that is there in this variant; for the loop the
 * first load that is. SIZE_MAX: none. */
static size_t part_of(const struct circuit_work *w,
                      const struct circuit_output *o) {
    for (size_t i = 0; i < w->c->element_count; i++) {
        bool here = w->part[i].law != LAWS;
        if (o->result == RESULT_LOOP) {
            if (here && w->c->element[i].part == CIRCUIT_LOAD)
                return i;
        } else if (here && text_equal(w->c->element[i].id,
                                      w->c->element[o->index].id)) {
            return i;
        }
    }
    return SIZE_MAX;
}

struct value circuit_block_value(struct values *v, const struct slot *s,
                                 size_t variant, const struct quantity *at) {
    return circuit_block_result(v, s->named.block, s->output, s->named.name,
                                variant, at);
}

/* Into a short from a point to whichever minus takes most. */
static struct value fault(struct values *v, const struct block *b,
                          size_t variant, const struct circuit_output *o,
                          struct text name) {
    double ampere[3] = {0};
    struct circuit_work *w = opened(v, b, variant);
    if (w == NULL)
        return (struct value){.type = VALUE_BAD};
    if (w->node[o->index] == SIZE_MAX)
        return (struct value){.type = VALUE_ABSENT};
    circuit_solve_all_on(w);
    for (int end = FAULT_NOMINAL; end <= FAULT_MOST; end++) {
        struct circuit_fault f;
        if (!circuit_fault_open(&f, w, (enum fault_end)end, NULL))
            return (struct value){.type = VALUE_BAD};
        ampere[end] = circuit_fault_at(&f, w->node[o->index]);
    }
    struct circuit_fault_ways least;
    if (!circuit_fault_least(&least, w))
        return (struct value){.type = VALUE_BAD};
    ampere[FAULT_LEAST] = ampere[FAULT_NOMINAL];
    for (size_t i = 0; i < least.count; i++) {
        double one = circuit_fault_at(&least.way[i], w->node[o->index]);
        if (one > 0)
            ampere[FAULT_LEAST] = fmin(ampere[FAULT_LEAST], one);
    }
    struct quantity *q = block_table(
        v, ampere[FAULT_NOMINAL],
        (struct ends){fmin(ampere[FAULT_LEAST], ampere[FAULT_MOST]),
                      fmax(ampere[FAULT_NOMINAL], ampere[FAULT_MOST])},
        "A", "", "open voltage over the resistance that feeds the short");
    q->name = name;
    return (struct value){.type = VALUE_QUANTITY, .quantity = q, .at = b->at};
}

/* By the high end of its heat: a joint that may be bad is where to look. Loads,
 * coils and supplies are meant to get warm. */
static struct value hottest(struct values *v, const struct block *b,
                            size_t variant, size_t state,
                            const struct quantity *at) {
    const struct circuit *c = b->circuit;
    struct text name = text_of("nothing");
    double most = 0;
    for (size_t i = 0; i < c->element_count; i++) {
        const struct circuit_output heat = {
            RESULT_HEAT, state, i, false, {"heat", "W", "given off by it"}};
        bool first = c->element[i].part != CIRCUIT_LOAD &&
                     c->element[i].part != CIRCUIT_COIL;
        for (size_t k = 0; k < i; k++)
            first = first && !text_equal(c->element[k].id, c->element[i].id);
        struct value value =
            first ? circuit_block_result(v, b, &heat, c->element[i].id, variant,
                                         at)
                  : (struct value){.type = VALUE_ABSENT};
        if (value.type == VALUE_BAD)
            return value;
        if (value.type != VALUE_QUANTITY ||
            !(range_ends(value.quantity).high > most))
            continue;
        most = range_ends(value.quantity).high;
        name = c->element[i].id;
    }
    return (struct value){
        .type = VALUE_TEXT, .text = name, .decision = true, .at = b->at};
}

/* As far as the solution is sure: Newton's iteration ends within 1e-11 of the
 * voltages, and a drop is the small difference of two. What is printed is
 * rounded outwards, and must not be moved by a rest in the last digits. */
static double settled(double x) {
    int decimals = round_decimals(x, 8);
    return round_value(x, decimals < 9 ? decimals : 9, ROUND_HALF_EVEN);
}

struct value circuit_block_result(struct values *v, const struct block *b,
                                  const struct circuit_output *o,
                                  struct text name, size_t variant,
                                  const struct quantity *at) {
    const struct value bad = {.type = VALUE_BAD};
    const struct value absent = {.type = VALUE_ABSENT};
    if (o->result == RESULT_FAULT)
        return fault(v, b, variant, o, name);
    if (o->result == RESULT_HOTTEST)
        return hottest(v, b, variant, o->state, at);
    struct task t = {.w = opened(v, b, variant), .output = o};
    if (t.w == NULL)
        return bad;
    if (o->result == RESULT_POINT ? t.w->node[o->index] == SIZE_MAX
                                  : (t.part = part_of(t.w, o)) == SIZE_MAX)
        return absent;
    if (o->result == RESULT_TEMPERATURE && t.w->part[t.part].law != LAW_WIRE)
        return absent;
    if (!circuit_solve_state(t.w, o->state, at))
        return bad;
    struct arena *a = v->c->arena;
    find_roots(&t);
    t.weight = arena_alloc(a, t.w->node_count, sizeof *t.weight);
    t.by = arena_alloc(a, t.w->node_count, sizeof *t.by);
    t.slope = arena_alloc(a, t.count + 1, sizeof *t.slope);
    t.first = arena_alloc(a, t.count + 1, sizeof *t.first);
    double nominal = result_now(&t);
    find_slopes(&t);
    memcpy(t.first, t.slope, t.count * sizeof *t.first);
    struct ends ends = {end_of(&t, nominal, false), end_of(&t, nominal, true)};
    if (!isfinite(ends.low) || !isfinite(ends.high)) {
        diag_add(v->c->diags, DIAG_CIRCUIT_UNSOLVED, b->at,
                 "'%.*s' has no solution at the worst end of its figures",
                 (int)name.len, name.start);
        return bad;
    }
    struct quantity *q = block_table(
        v, settled(nominal),
        (struct ends){settled(ends.low), settled(ends.high)}, o->field.unit, "",
        "nodal solution over the ranges of all its parts");
    q->name = name;
    return (struct value){.type = VALUE_QUANTITY, .quantity = q, .at = b->at};
}

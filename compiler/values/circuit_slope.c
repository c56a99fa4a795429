/* circuit_slope.c - how a result of a circuit moves with the roots.
 *
 * A root moves the currents of parts at their voltages; the adjoint tells what
 * a current does to the result. */
#include "values/circuit_task.h"

#include "base/arena.h"
#include "calc/heating.h"
#include "values/range.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

double circuit_task_across(const struct circuit_work *w, size_t part) {
    return w->solution.volt[w->from[part]] - w->solution.volt[w->to[part]];
}

/* K, steady or, as its check has it, after one cranking that begins at what
 * lasts. */
static double wire_temperature(const struct circuit_piece *p,
                               const struct circuit_part_law *law,
                               double current, const double *figure) {
    const struct ampacity_use *use = &p->run->ampacity.use;
    if (p->figure_count != WIRE_CRANKED)
        return circuit_law_temperature(law, current, figure[2], use->material);
    const struct heated heated = {use->size, use->material};
    const double of[] = {current, figure[3], circuit_part_before(p, figure)};
    return heating_calculation(HEATING_TEMPERATURE)->value(&heated, of);
}

/* An element's result as a function of the voltage across it. */
double circuit_task_of(const struct task *t, double u, const double *figure) {
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
    case RESULT_SAG:
        return u - circuit_law_rest(&law) - circuit_law_knee(&law);
    case RESULT_FAULT:
    case RESULT_HOTTEST:
        return NAN;
    case RESULT_TEMPERATURE:
        break;
    }
    struct circuit_piece wire = circuit_solve_piece(t->w, t->part);
    return wire_temperature(&wire, &law, fabs(current), figure);
}

void circuit_task_figures(const struct task *t, size_t part, double *x) {
    const struct circuit_figures *f = &t->w->figures[part];
    for (size_t k = 0; k < f->count; k++)
        x[k] = circuit_solve_value(f, k, t->corner, t->count);
}

bool circuit_task_is_loss(const struct task *t) {
    return t->output->result == RESULT_LOOP || t->output->result == RESULT_LOSS;
}

bool circuit_task_is_open(const struct task *t) {
    return t->w->in_net[t->part] == SIZE_MAX;
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
    if (circuit_task_is_loss(t)) {
        for (size_t i = 0; i < t->string_count; i++)
            weigh(t, t->string[i], -1);
        weigh(t, t->part, circuit_task_across(w, t->part) < 0 ? 1 : -1);
        return;
    }
    double u = circuit_task_across(w, t->part), x[PART_FIGURES] = {0},
           h = step_of(u);
    if (!circuit_task_is_open(t))
        circuit_task_figures(t, t->part, x);
    weigh(t, t->part,
          circuit_task_is_open(t)
              ? 1
              : (circuit_task_of(t, u + h, x) - circuit_task_of(t, u - h, x)) /
                    2 / h);
}

/* How a part's current moves with its figure k, at its voltage. */
static double current_by(const struct task *t, size_t part, size_t k,
                         double *x) {
    const struct circuit_work *w = t->w;
    const struct circuit_piece *p = &w->part[part];
    const struct circuit_part_law *law = &w->net_part[w->in_net[part]].law;
    struct circuit_piece own;
    if (circuit_solve_differs(w, part)) {
        own = circuit_solve_piece(w, part);
        p = &own;
    }
    return circuit_part_moves(p, x, k, circuit_task_across(w, part), law);
}

/* How the result of a part moves with its own figure k, at its voltage. */
static double result_by(const struct task *t, size_t k, double *x) {
    double at = x[k], h = step_of(at), u = circuit_task_across(t->w, t->part);
    x[k] = at + h;
    double high = circuit_task_of(t, u, x);
    x[k] = at - h;
    double low = circuit_task_of(t, u, x);
    x[k] = at;
    return (high - low) / (2 * h);
}

/* How figure k of a part moves with a root; 1 where it is the root itself. */
static double by_root(const struct task *t, const struct circuit_figures *f,
                      size_t k, size_t root) {
    if (f->of[k]->op == QUANTITY_ROOT)
        return 1;
    struct corner *c = &t->corner[root];
    double at = c->value, width = c->root->range.high - c->root->range.low;
    c->value = c->root->range.high;
    double high = circuit_solve_value(f, k, t->corner, t->count);
    c->value = c->root->range.low;
    double low = circuit_solve_value(f, k, t->corner, t->count);
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
    const struct circuit_figures *f = &t->w->figures[part];
    double x[PART_FIGURES] = {0};
    if (!f->moves)
        return;
    circuit_task_figures(t, part, x);
    for (size_t k = 0; k < f->count; k++) {
        if (f->first[k] == f->last[k])
            continue; /* exact */
        double figure = by_figure(t, part, k, x);
        for (size_t r = f->first[k]; r < f->last[k]; r++)
            each(t, part, r, figure, by_root(t, f, k, r));
    }
}

/* Of the solution at hand: so many at the most. */
static size_t slopes_most(const struct task *t) {
    const struct circuit_work *w = t->w;
    size_t most = 0;
    for (size_t i = 0; i < w->part_count; i++)
        for (size_t k = 0; w->in_net[i] != SIZE_MAX && k < w->figures[i].count;
             k++)
            most += w->figures[i].last[k] - w->figures[i].first[k];
    return most;
}

static void add_current(const struct task *t, size_t part, size_t root,
                        double by_figure, double by_root) {
    struct circuit_slopes *s = t->w->slopes;
    double current = by_figure * by_root;
    if (current != 0)
        s->list[s->count++] =
            (struct circuit_slope){(unsigned)part, (unsigned)root, current};
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

void circuit_task_slopes(const struct task *t) {
    const struct circuit_work *w = t->w;
    struct circuit_slopes *s = w->slopes;
    memset(t->slope, 0, t->count * sizeof *t->slope);
    weigh_result(t);
    circuit_net_adjoint(&w->net, w->work, t->weight, t->by);
    size_t most = s->known ? 0 : slopes_most(t);
    if (most > s->room) {
        s->list = arena_alloc(w->v->c->arena, most, sizeof *s->list);
        s->room = most;
    }
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
    if (t->output->result != RESULT_POINT && !circuit_task_is_loss(t) &&
        !circuit_task_is_open(t))
        over_roots(t, t->part, own_by, add_own);
}

/* How the result moves with figure k of a part that conducts, at the solution
 * of the slopes. */
static double moves(const struct task *t, size_t part, size_t k) {
    double x[PART_FIGURES] = {0};
    circuit_task_figures(t, part, x);
    return (t->by[t->w->to[part]] - t->by[t->w->from[part]]) *
           current_by(t, part, k, x);
}

/* Of 1 V by which a supply is off, so much at the load makes it one of those
 * that are told. Ours. */
static const double TOLD_SHARE = 0.05;

void circuit_task_hold(struct task *t) {
    struct circuit_work *w = t->w;
    struct arena *a = w->v->c->arena;
    struct circuit_held *held = t->output->held;
    const struct quantity *const *root;
    held->supply = arena_alloc(a, w->c->supply_count, sizeof *held->supply);
    held->count = 0;
    t->held = arena_alloc(a, t->count + 1, sizeof *t->held);
    for (size_t s = w->c->element_count; s < w->part_count; s++) {
        if (w->in_net[s] == SIZE_MAX || fabs(moves(t, s, 0)) < TOLD_SHARE)
            continue;
        held->supply[held->count++] = s;
        size_t roots = range_roots(a, w->part[s].figure[0], &root);
        for (size_t k = 0; k < roots; k++)
            for (size_t r = 0; r < t->count; r++)
                t->held[r] = t->held[r] || t->corner[r].root == root[k];
    }
}

/* So many are told, and none that makes less than this share of what all of
 * them together do. Ours. */
enum { TOLD = 3 };
static const double LEAST_SHARE = 0.1;

const struct corner *circuit_task_moved(const struct task *t) {
    struct corner *list =
        arena_alloc(t->w->v->c->arena, TOLD + 1, sizeof *list);
    double by[TOLD] = {0}, all = 0;
    size_t count = 0;
    for (size_t r = 0; r < t->count; r++) {
        const struct corner *c = &t->corner[r];
        double one = fabs(t->slope[r] * (c->value - c->root->nominal));
        size_t at = count;
        all += one;
        while (at > 0 && one > by[at - 1])
            at--;
        if (at == TOLD || one == 0)
            continue;
        count += count < TOLD;
        for (size_t k = count - 1; k > at; k--) {
            list[k] = list[k - 1];
            by[k] = by[k - 1];
        }
        list[at] = *c;
        by[at] = one;
    }
    while (count > 0 && by[count - 1] < LEAST_SHARE * all)
        count--;
    list[count].root = NULL;
    return list;
}

/* circuit_ends.c - the ends of a result of a circuit.
 *
 * They are sought at corners of the roots' ranges: the adjoint tells which way
 * each root moves the result; at the corner that this names the signs are
 * looked at again, and roots that disagree are turned. Where a supply is at its
 * limit over a part of the ranges only, a root may move the result up on one
 * side of the knee and down on the other, so that the search begins on both.
 * Heat in a joint has its peak where the joint equals what feeds it, so that
 * its own resistance is tried all along its range. */
#include "values/circuit_ends.h"

#include "base/arena.h"
#include "calc/peak.h"
#include "values/circuit_block.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

enum { TURNS_MAX = 6, HALVINGS = 30 };

/* By so much, in SI, a root may move a result through its whole range and not
 * be turned: results are told to 9 decimals, and what is left of a slope that
 * is 0 would send each to a corner of its own. */
#define UNMOVED 1e-12

double circuit_ends_now(const struct task *t) {
    const struct circuit_work *w = t->w;
    const struct circuit_output *o = t->output;
    if (o->result == RESULT_POINT)
        return w->solution.volt[w->node[o->index]];
    double u = circuit_task_across(w, t->part), x[PART_FIGURES] = {0};
    if (circuit_task_is_loss(t)) {
        double volt = 0;
        for (size_t i = 0; i < t->string_count; i++)
            volt -= circuit_task_across(w, t->string[i]);
        return volt - fabs(u); /* either way round */
    }
    if (circuit_task_is_open(t) && o->result != RESULT_VOLTAGE &&
        o->result != RESULT_DROP)
        return 0;
    circuit_task_figures(t, t->part, x);
    return circuit_task_of(t, u, x);
}

static bool is_held(const struct task *t, size_t root) {
    return t->held != NULL && t->held[root];
}

/* Puts roots at their ends by the slopes; true when one moved. */
static bool turn(const struct task *t, bool high) {
    bool moved = false;
    for (size_t r = 0; r < t->count; r++) {
        struct ends range = t->corner[r].root->range;
        if (fabs(t->slope[r]) * (range.high - range.low) <= UNMOVED ||
            is_held(t, r))
            continue;
        double to = (t->slope[r] > 0) == high ? range.high : range.low;
        moved = moved || to != t->corner[r].value;
        t->corner[r].value = to;
    }
    return moved;
}

static bool is_better(double found, double best, bool high) {
    return isfinite(found) && (high ? found > best : found < best);
}

static void keep(double *best, double found, bool high) {
    if (is_better(found, *best, high))
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
    double y = circuit_ends_now(m->t);
    keep(m->best, y, m->high);
    return m->high ? y : -y;
}

/* A joint's own resistance through its range, even in the decades. */
static void step_through(const struct task *t, double *best, bool high) {
    if (t->output->result != RESULT_HEAT || circuit_task_is_open(t))
        return;
    const struct circuit_figures *f = &t->w->figures[t->part];
    for (size_t r = 0; r < t->count; r++) {
        struct corner *c = &t->corner[r];
        struct ends range = c->root->range;
        bool own = false;
        for (size_t k = 0; k < f->count; k++)
            own = own || f->of[k] == c->root;
        if (!own || range.low <= 0)
            continue;
        struct moved m = {t, c, best, high};
        double back = c->value;
        t->w->trying = true;
        peak_find(moved_to, &m, log(range.low), log(range.high));
        t->w->trying = false;
        c->value = back;
    }
}

static void reset(const struct task *t) {
    for (size_t r = 0; r < t->count; r++)
        t->corner[r].value = t->corner[r].root->nominal;
}

/* From corner to corner, as the slopes say at the nominal figures first, or at
 * the corner at hand; false: one has no solution. `corner`, where not NULL, is
 * where the best was found. */
static bool turn_on(const struct task *t, bool nominal, double *best, bool high,
                    double *corner) {
    bool solved = true;
    for (int i = 0; solved && i < TURNS_MAX; i++) {
        if (i == 0 && nominal)
            memcpy(t->slope, t->first, t->count * sizeof *t->slope);
        else
            circuit_task_slopes(t);
        if (!turn(t, high))
            break;
        solved = circuit_solve_corner(t->w, t->corner, t->count);
        double before = *best;
        if (solved)
            keep(best, circuit_ends_now(t), high);
        for (size_t r = 0; r < t->count && corner != NULL && *best != before;
             r++)
            corner[r] = t->corner[r].value;
    }
    return solved;
}

/* Whether the slope of a root, as they were worked out, points into its range,
 * and to which end. */
static bool points_in(const struct task *t, size_t root, bool high, bool *up) {
    struct ends range = t->corner[root].root->range;
    *up = (t->slope[root] > 0) == high;
    return !is_held(t, root) &&
           fabs(t->slope[root]) * (range.high - range.low) > UNMOVED &&
           t->corner[root].value != (*up ? range.high : range.low);
}

/* From a corner, roots one by one to their other end, where that is better:
 * together they went past the knee. */
static void turn_singly(const struct task *t, double *best, bool high) {
    circuit_task_slopes(t);
    for (size_t r = 0; r < t->count; r++) {
        bool up;
        double back = t->corner[r].value;
        if (!points_in(t, r, high, &up))
            continue;
        struct ends range = t->corner[r].root->range;
        t->corner[r].value = up ? range.high : range.low;
        double now = circuit_solve_corner(t->w, t->corner, t->count)
                         ? circuit_ends_now(t)
                         : NAN;
        if (is_better(now, *best, high)) {
            *best = now;
            circuit_task_slopes(t);
        } else {
            t->corner[r].value = back;
        }
    }
}

/* And then inwards, to the knee itself, by halving. */
static void go_to_knee(const struct task *t, double *best, bool high) {
    for (size_t r = 0; r < t->count; r++) {
        struct corner *c = &t->corner[r];
        struct ends in = c->root->range;
        bool up, solved = circuit_solve_corner(t->w, t->corner, t->count);
        if (solved)
            circuit_task_slopes(t);
        if (!solved || !points_in(t, r, high, &up))
            continue;
        for (int i = 0; solved && i < HALVINGS; i++) {
            c->value = (in.low + in.high) / 2;
            solved = circuit_solve_corner(t->w, t->corner, t->count);
            if (!solved)
                break;
            keep(best, circuit_ends_now(t), high);
            circuit_task_slopes(t);
            *((t->slope[r] > 0) == high ? &in.low : &in.high) = c->value;
        }
    }
}

static void put(const struct task *t, const double *value) {
    for (size_t r = 0; r < t->count; r++)
        t->corner[r].value =
            is_held(t, r) ? t->corner[r].root->nominal : value[r];
}

/* A search from the corner at hand, or by the slopes at the nominal figures, of
 * which `now` is the result: where the knee of a supply is somewhere in the
 * ranges, on to it from its best corner. The corners have room for all roots.
 */
static bool search_with_knee(const struct task *t, bool nominal, double now,
                             double *best, bool high, double *corner) {
    double own = now;
    for (size_t r = 0; r < t->count; r++)
        corner[r] = t->corner[r].value;
    if (!turn_on(t, nominal, &own, high, corner))
        return false;
    put(t, corner);
    t->w->trying = true;
    if (circuit_solve_corner(t->w, t->corner, t->count)) {
        turn_singly(t, &own, high);
        go_to_knee(t, &own, high);
    }
    t->w->trying = false;
    keep(best, own, high);
    return true;
}

static bool search_beyond(const struct task *t, double *best, bool high) {
    double *corner =
        arena_alloc(t->w->v->c->arena, t->count + 1, sizeof *corner);
    bool solved = search_with_knee(t, true, *best, best, high, corner);
    for (size_t s = 0; solved && s < t->beyond_count; s++) {
        put(t, t->beyond[s]);
        solved =
            circuit_solve_corner(t->w, t->corner, t->count) &&
            search_with_knee(t, false, circuit_ends_now(t), best, high, corner);
    }
    return solved;
}

double circuit_ends_find(const struct task *t, double nominal, bool high,
                         const struct corner **moved) {
    double best = nominal;
    reset(t);
    if (t->beyond_count > 0 ? !search_beyond(t, &best, high)
                            : !turn_on(t, true, &best, high, NULL))
        return NAN;
    double turned = best;
    step_through(t, &best, high);
    if (best == turned && t->beyond_count == 0) /* else within its range */
        *moved = circuit_task_moved(t);
    return best;
}

/* The corner furthest on the other side of the knee of a supply, in the state
 * that is solved; NULL: it stays on its own side all over the ranges. */
static double *far_side(const struct task *t, size_t supply) {
    const struct circuit_output sag = {.result = RESULT_SAG,
                                       .state = t->output->state};
    struct task s = *t;
    s.output = &sag;
    s.part = supply;
    reset(t);
    double *corner =
        arena_alloc(t->w->v->c->arena, t->count + 1, sizeof *corner);
    double best = circuit_ends_now(&s);
    bool high = best < 0;
    circuit_task_slopes(&s);
    memcpy(s.first, s.slope, s.count * sizeof *s.first);
    turn_on(&s, true, &best, high, corner);
    return (best > 0) == high && best != 0 ? corner : NULL;
}

bool circuit_ends_open(struct task *t, const struct quantity *at) {
    struct circuit_work *w = t->w;
    struct circuit_memo *m = w->kept;
    if (m != NULL && m->beyond_known) {
        t->beyond = m->beyond;
        t->beyond_count = m->beyond_count;
        return true;
    }
    bool good = true;
    t->beyond =
        arena_alloc(w->v->c->arena, w->c->supply_count + 1, sizeof(*t->beyond));
    t->beyond_count = 0;
    for (size_t s = w->c->element_count; s < w->part_count && good; s++) {
        if (w->part[s].law != LAW_LIMITED || w->in_net[s] == SIZE_MAX)
            continue;
        double *corner = far_side(t, s);
        if (corner != NULL)
            t->beyond[t->beyond_count++] = corner;
        good = circuit_solve_state(w, t->output->state, at);
    }
    reset(t);
    if (m != NULL && good) {
        m->beyond = t->beyond;
        m->beyond_count = t->beyond_count;
        m->beyond_known = true;
    }
    return good;
}

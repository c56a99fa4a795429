/* quantity.c - a number with its unit, and how it came about. */
#include "values/quantity.h"

#include "base/arena.h"
#include "values/interval.h"

#include <assert.h>
#include <math.h>
#include <stdint.h>
#include <string.h>

bool quantity_is_exact(const struct quantity *q) {
    return q->bounds->first > q->bounds->last;
}

/* A node and its cache in one piece of memory. */
struct made {
    struct quantity node;
    struct bounds bounds;
};

static struct quantity *make(struct quantity_maker *m, enum quantity_op op) {
    struct made *one = arena_alloc(m->arena, 1, sizeof *one);
    struct quantity *q = &one->node;
    q->bounds = &one->bounds;
    q->op = op;
    q->serial = m->next_serial++;
    q->decimals = -1;
    return q;
}

struct quantity *quantity_root(struct quantity_maker *m, enum root_kind kind,
                               double nominal, struct ends range,
                               struct dim dim, const struct unit *unit) {
    struct quantity *q = make(m, QUANTITY_ROOT);
    q->root = kind;
    q->nominal = nominal;
    q->range = range;
    q->dim = dim;
    q->unit = unit;
    bool uncertain = range.low < range.high;
    *q->bounds = (struct bounds){.within = range,
                                 .exact = true,
                                 .first = uncertain ? q->serial : SIZE_MAX,
                                 .last = uncertain ? q->serial : 0};
    return q;
}

struct quantity *quantity_exact(struct quantity_maker *m, double si,
                                struct dim dim, const struct unit *unit) {
    struct quantity *q =
        quantity_root(m, ROOT_LITERAL, si, (struct ends){si, si}, dim, unit);
    if (unit == NULL && si == floor(si))
        q->decimals = 0; /* a bare whole number: 2, not 2.00 */
    return q;
}

struct quantity *quantity_number(struct quantity_maker *m, double x) {
    const struct dim none = {{0}, false};
    return quantity_exact(m, x, none, NULL);
}

static bool is_dim(struct dim d, const char *unit) {
    return dim_equal(d, unit_find(unit, strlen(unit))->dim);
}

static bool in_hours(const struct quantity *q) {
    return q->unit != NULL && q->unit->factor == 3600;
}

/* Force times length is a torque; what else comes to the same dimension is an
 * energy, and no N·m: 12 V * 100 Ah. */
static const struct unit *unit_of_energy(const struct quantity *left,
                                         const struct quantity *right) {
    if (!is_dim(dim_product(left->dim, right->dim), "J") ||
        is_dim(left->dim, "N") || is_dim(right->dim, "N"))
        return NULL;
    return in_hours(left) || in_hours(right) ? unit_find("Wh", 2)
                                             : unit_find("J", 1);
}

/* 30 A * 2 still prints in amperes, 0.3 V / 13.5 V has no unit to keep. */
static const struct unit *unit_of_product(const struct quantity *left,
                                          const struct quantity *right,
                                          bool divide) {
    if (dim_none(right->dim))
        return left->unit;
    if (!divide && dim_none(left->dim))
        return right->unit;
    return divide ? NULL : unit_of_energy(left, right);
}

/* Whether some uncertain root may stand below two of the arguments. */
static bool roots_meet(const struct quantity *q) {
    for (size_t i = 0; i < q->arg_count; i++)
        for (size_t k = 0; k < i; k++) {
            const struct bounds *a = q->arg[i]->bounds, *b = q->arg[k]->bounds;
            if (a->first <= b->last && b->first <= a->last)
                return true;
        }
    return false;
}

/* An input that moves a calculation neither way is bounded outward only. */
static bool is_stepped(const struct quantity *q) {
    for (size_t i = 0; q->op == QUANTITY_CALL && i < q->arg_count; i++)
        if (q->calculation->input[i].trend == TREND_NEITHER &&
            q->arg[i]->bounds->within.low < q->arg[i]->bounds->within.high)
            return true;
    return false;
}

/* Nominal value and bounds, once operation and arguments stand. */
static void evaluate(struct quantity *q) {
    struct ends nominal[CALCULATION_INPUTS] = {{0}};
    struct ends within[CALCULATION_INPUTS] = {{0}};
    bool same = q->arg_count == 2 && q->arg[0] == q->arg[1];
    struct bounds b = {.exact = (same || !roots_meet(q)) && !is_stepped(q),
                       .first = SIZE_MAX};
    for (size_t i = 0; i < q->arg_count; i++) {
        const struct bounds *of = q->arg[i]->bounds;
        nominal[i] = (struct ends){q->arg[i]->nominal, q->arg[i]->nominal};
        within[i] = of->within;
        b.exact = b.exact && of->exact;
        b.first = of->first < b.first ? of->first : b.first;
        b.last = of->last > b.last ? of->last : b.last;
    }
    q->nominal = interval_node(q, nominal).low;
    b.within = interval_node(q, within);
    b.exact = b.exact && isfinite(b.within.low) && isfinite(b.within.high);
    *q->bounds = b;
}

struct quantity *quantity_binary(struct quantity_maker *m, enum quantity_op op,
                                 const struct quantity *left,
                                 const struct quantity *right) {
    struct quantity *q = make(m, op);
    q->arg[0] = left;
    q->arg[1] = right;
    q->arg_count = 2;
    if (op == QUANTITY_MULTIPLY) {
        q->dim = dim_product(left->dim, right->dim);
        q->unit = unit_of_product(left, right, false);
    } else if (op == QUANTITY_DIVIDE) {
        q->dim = dim_quotient(left->dim, right->dim);
        q->unit = unit_of_product(left, right, true);
    } else {
        q->dim = left->dim;
        q->unit = left->unit != NULL ? left->unit : right->unit;
        /* A point plus a difference is a point; two points differ by a
         * difference, which has no scale. */
        if (op == QUANTITY_ADD && right->dim.point) {
            q->dim = right->dim;
            q->unit = right->unit;
        } else if (op == QUANTITY_SUBTRACT && left->dim.point &&
                   right->dim.point) {
            q->dim.point = false;
            q->unit = NULL;
        }
    }
    evaluate(q);
    return q;
}

struct quantity *quantity_power(struct quantity_maker *m,
                                const struct quantity *base, int numerator,
                                int denominator) {
    struct quantity *q = make(m, QUANTITY_POWER);
    q->arg[0] = base;
    q->arg_count = 1;
    q->numerator = numerator;
    q->denominator = denominator;
    dim_power(base->dim, numerator, denominator, &q->dim);
    if (dim_equal(q->dim, base->dim))
        q->unit = base->unit;
    evaluate(q);
    return q;
}

struct quantity *quantity_abs(struct quantity_maker *m,
                              const struct quantity *of) {
    struct quantity *q = make(m, QUANTITY_ABS);
    q->arg[0] = of;
    q->arg_count = 1;
    q->dim = of->dim;
    q->unit = of->unit;
    evaluate(q);
    return q;
}

struct quantity *quantity_twin(struct quantity_maker *m,
                               const struct quantity *of) {
    assert(of->op != QUANTITY_ROOT);
    struct quantity *q = make(m, of->op);
    struct bounds *bounds = q->bounds;
    size_t serial = q->serial;
    *q = *of;
    *bounds = *of->bounds;
    q->bounds = bounds;
    q->serial = serial;
    return q;
}

/* An input in the wrong place is a bug of ours, not of the author's. */
static bool takes(const char *unit, struct dim dim) {
    const struct dim none = {{0}, false};
    const struct unit *u = unit == NULL ? NULL : unit_find(unit, strlen(unit));
    return dim_same(dim, u == NULL ? none : u->dim);
}

struct quantity *quantity_call(struct quantity_maker *m,
                               const struct calculation *calculation,
                               const void *fixed,
                               const struct quantity *const *arg) {
    struct quantity *q = make(m, QUANTITY_CALL);
    for (size_t i = 0; i < calculation->input_count; i++) {
        assert(takes(calculation->input[i].unit, arg[i]->dim));
        q->arg[i] = arg[i];
    }
    q->arg_count = calculation->input_count;
    q->calculation = calculation;
    q->fixed = fixed;
    q->unit =
        calculation->unit == NULL
            ? NULL
            : unit_find(calculation->unit, text_of(calculation->unit).len);
    if (q->unit != NULL)
        q->dim = q->unit->dim;
    evaluate(q);
    return q;
}

/* quantity.c - a number with its unit, and how it came about. */
#include "values/quantity.h"

#include "base/arena.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static struct quantity *make(struct quantity_maker *m, enum quantity_op op) {
    struct quantity *q = arena_alloc(m->arena, 1, sizeof *q);
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

/* 30 A * 2 still prints in amperes, 0.3 V / 13.5 V has no unit to keep. */
static const struct unit *unit_of_product(const struct quantity *left,
                                          const struct quantity *right,
                                          bool divide) {
    if (dim_none(right->dim))
        return left->unit;
    if (!divide && dim_none(left->dim))
        return right->unit;
    return NULL;
}

static double operate(enum quantity_op op, double a, double b) {
    switch (op) {
    case QUANTITY_ADD:
        return a + b;
    case QUANTITY_SUBTRACT:
        return a - b;
    case QUANTITY_MULTIPLY:
        return a * b;
    case QUANTITY_DIVIDE:
        return a / b;
    case QUANTITY_MIN:
        return fmin(a, b);
    case QUANTITY_MAX:
        return fmax(a, b);
    case QUANTITY_ROOT:
    case QUANTITY_POWER:
    case QUANTITY_ABS:
    case QUANTITY_CALL:
        break;
    }
    return NAN;
}

struct quantity *quantity_binary(struct quantity_maker *m, enum quantity_op op,
                                 const struct quantity *left,
                                 const struct quantity *right) {
    struct quantity *q = make(m, op);
    q->arg[0] = left;
    q->arg[1] = right;
    q->arg_count = 2;
    q->nominal = operate(op, left->nominal, right->nominal);
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
    if (!dim_power(base->dim, numerator, denominator, &q->dim))
        q->nominal = NAN;
    else
        q->nominal = denominator == 2 && numerator == 1
                         ? sqrt(base->nominal)
                         : pow(base->nominal, (double)numerator / denominator);
    if (dim_equal(q->dim, base->dim))
        q->unit = base->unit;
    return q;
}

struct quantity *quantity_abs(struct quantity_maker *m,
                              const struct quantity *of) {
    struct quantity *q = make(m, QUANTITY_ABS);
    q->arg[0] = of;
    q->arg_count = 1;
    q->nominal = fabs(of->nominal);
    q->dim = of->dim;
    q->unit = of->unit;
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
    double input[CALCULATION_INPUTS] = {0};
    for (size_t i = 0; i < calculation->input_count; i++) {
        assert(takes(calculation->input[i].unit, arg[i]->dim));
        q->arg[i] = arg[i];
        input[i] = arg[i]->nominal;
    }
    q->arg_count = calculation->input_count;
    q->calculation = calculation;
    q->fixed = fixed;
    q->nominal = calculation->value(fixed, input);
    q->unit =
        calculation->unit == NULL
            ? NULL
            : unit_find(calculation->unit, text_of(calculation->unit).len);
    if (q->unit != NULL)
        q->dim = q->unit->dim;
    return q;
}

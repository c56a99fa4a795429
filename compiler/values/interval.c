/* interval.c - arithmetic on closed intervals, ends may be infinite. */
#include "values/interval.h"

#include <math.h>
#include <stdlib.h>

/* fmin() and fmax() lose a NAN. */
static double least(double a, double b) {
    return a < b || isnan(a) ? a : b;
}

static double most(double a, double b) {
    return a > b || isnan(a) ? a : b;
}

static struct ends hull_of_four(double p, double q, double r, double s) {
    return (struct ends){least(least(p, q), least(r, s)),
                         most(most(p, q), most(r, s))};
}

/* Infinity less infinity may be anything: the end goes outward. What is left
 * below the 15 digits that count is nothing: 1 ft - 12 in. */
static double sum(double a, double b, double outward) {
    double s = a + b;
    if (fabs(s) < 2e-15 * fmax(fabs(a), fabs(b)))
        return 0;
    return isnan(s) && !isnan(a) && !isnan(b) ? outward : s;
}

struct ends interval_add(struct ends a, struct ends b) {
    return (struct ends){sum(a.low, b.low, -INFINITY),
                         sum(a.high, b.high, INFINITY)};
}

struct ends interval_subtract(struct ends a, struct ends b) {
    return interval_add(a, (struct ends){-b.high, -b.low});
}

static double product(double a, double b) {
    bool no_effect = (a == 0 && isinf(b)) || (b == 0 && isinf(a));
    return no_effect ? 0 : a * b;
}

struct ends interval_multiply(struct ends a, struct ends b) {
    return hull_of_four(product(a.low, b.low), product(a.low, b.high),
                        product(a.high, b.low), product(a.high, b.high));
}

struct ends interval_divide(struct ends a, struct ends b) {
    if (b.low <= 0 && b.high >= 0)
        return (struct ends){-INFINITY, INFINITY};
    return hull_of_four(a.low / b.low, a.low / b.high, a.high / b.low,
                        a.high / b.high);
}

static double power(double base, int numerator, int denominator) {
    if (numerator == 1 && denominator == 2)
        return sqrt(base);
    return pow(base, (double)numerator / denominator);
}

struct ends interval_power(struct ends a, int numerator, int denominator) {
    if (numerator == 0)
        return (struct ends){1, 1};
    if (numerator < 0) {
        struct ends one = {1, 1};
        return interval_divide(one, interval_power(a, -numerator, denominator));
    }
    double low = power(a.low, numerator, denominator);
    double high = power(a.high, numerator, denominator);
    bool even = denominator == 1 && numerator % 2 == 0;
    if (!even)
        return (struct ends){low, high};
    if (a.low <= 0 && a.high >= 0)
        return (struct ends){0, most(low, high)};
    return (struct ends){least(low, high), most(low, high)};
}

struct ends interval_abs(struct ends a) {
    double low = fabs(a.low), high = fabs(a.high);
    if (a.low <= 0 && a.high >= 0)
        return (struct ends){0, most(low, high)};
    return (struct ends){least(low, high), most(low, high)};
}

struct ends interval_min(struct ends a, struct ends b) {
    return (struct ends){least(a.low, b.low), least(a.high, b.high)};
}

struct ends interval_max(struct ends a, struct ends b) {
    return (struct ends){most(a.low, b.low), most(a.high, b.high)};
}

struct ends interval_within(struct ends a, struct ends b) {
    struct ends in = {a.low < b.low ? b.low : a.low,
                      a.high > b.high ? b.high : a.high};
    if (in.low > in.high)
        in.low = in.high = a.high < b.low ? a.high : a.low;
    return in;
}

/* Inputs at the corner that gives the low (or high) result. */
static void place_at_corner(const struct calculation *c,
                            const struct ends *input, bool high, double *x) {
    for (size_t i = 0; i < c->input_count; i++) {
        bool up = (c->input[i].trend == TREND_RISING) == high;
        x[i] = up ? input[i].high : input[i].low;
    }
}

static bool is_stepped(const struct calculation *c, const struct ends *input,
                       size_t i) {
    return c->input[i].trend == TREND_NEITHER && input[i].low != input[i].high;
}

/* Steps for each input that is stepped through: fewer where there are more. */
static int step_count(const struct calculation *c, const struct ends *input) {
    static const int steps[] = {0, 32, 12, 5};
    size_t stepped = 0;
    for (size_t i = 0; i < c->input_count; i++)
        stepped += is_stepped(c, input, i);
    return stepped < sizeof steps / sizeof steps[0] ? steps[stepped] : 4;
}

/* Lowest (or highest) value while input `at`, and the ones after it that have
 * neither trend, run through their ranges. Between two steps the value may pass
 * the nearer of them by as much as they differ. */
static double extreme(const struct calculation *c, const void *fixed,
                      const struct ends *input, bool high, double *x, size_t at,
                      int steps) {
    while (at < c->input_count && !is_stepped(c, input, at))
        at++;
    if (at == c->input_count)
        return c->value(fixed, x);
    double best = NAN, last = NAN;
    for (int i = 0; i <= steps; i++) {
        double part = (double)i / steps;
        x[at] = input[at].low + part * (input[at].high - input[at].low);
        double y = extreme(c, fixed, input, high, x, at + 1, steps);
        if (isnan(y))
            return NAN;
        double near = i == 0 ? y : last, beyond = fabs(y - near);
        double candidate =
            high ? fmax(y, near) + beyond : fmin(y, near) - beyond;
        if (i == 0 || (high ? candidate > best : candidate < best))
            best = candidate;
        last = y;
    }
    return best;
}

static struct ends call(const struct calculation *c, const void *fixed,
                        const struct ends *input) {
    double low_at[CALCULATION_INPUTS] = {0}, high_at[CALCULATION_INPUTS] = {0};
    place_at_corner(c, input, false, low_at);
    place_at_corner(c, input, true, high_at);
    int steps = step_count(c, input);
    return (struct ends){extreme(c, fixed, input, false, low_at, 0, steps),
                         extreme(c, fixed, input, true, high_at, 0, steps)};
}

struct ends interval_node(const struct quantity *q, const struct ends *arg) {
    bool same = q->arg_count == 2 && q->arg[0] == q->arg[1];
    switch (q->op) {
    case QUANTITY_ROOT:
        break; /* a root has no arguments */
    case QUANTITY_ADD:
        return interval_add(arg[0], arg[1]);
    case QUANTITY_SUBTRACT:
        return same ? (struct ends){0, 0} : interval_subtract(arg[0], arg[1]);
    case QUANTITY_MULTIPLY:
        return same ? interval_power(arg[0], 2, 1)
                    : interval_multiply(arg[0], arg[1]);
    case QUANTITY_DIVIDE:
        return same ? (struct ends){1, 1} : interval_divide(arg[0], arg[1]);
    case QUANTITY_POWER:
        return interval_power(arg[0], q->numerator, q->denominator);
    case QUANTITY_ABS:
        return interval_abs(arg[0]);
    case QUANTITY_MIN:
        return interval_min(arg[0], arg[1]);
    case QUANTITY_MAX:
        return interval_max(arg[0], arg[1]);
    case QUANTITY_CALL:
        return call(q->calculation, q->fixed, arg);
    }
    abort(); /* the switch is complete */
}

size_t interval_cost(const struct quantity *q) {
    if (q->op != QUANTITY_CALL)
        return 1;
    struct ends input[CALCULATION_INPUTS];
    for (size_t i = 0; i < q->arg_count; i++)
        input[i] = q->arg[i]->bounds->within;
    size_t cost = 2;
    for (size_t i = 0; i < q->arg_count; i++)
        if (is_stepped(q->calculation, input, i))
            cost *= (size_t)step_count(q->calculation, input) + 1;
    return cost;
}

/* interval.c - arithmetic on closed intervals, ends may be infinite. */
#include "values/interval.h"

#include <math.h>

struct ends interval_add(struct ends a, struct ends b) {
    return (struct ends){a.low + b.low, a.high + b.high};
}

struct ends interval_subtract(struct ends a, struct ends b) {
    return (struct ends){a.low - b.high, a.high - b.low};
}

static double product(double a, double b) {
    return a == 0 || b == 0 ? 0 : a * b;
}

struct ends interval_hull(struct ends a, struct ends b) {
    return (struct ends){fmin(a.low, b.low), fmax(a.high, b.high)};
}

struct ends interval_multiply(struct ends a, struct ends b) {
    double p = product(a.low, b.low), q = product(a.low, b.high);
    double r = product(a.high, b.low), s = product(a.high, b.high);
    return (struct ends){fmin(fmin(p, q), fmin(r, s)),
                         fmax(fmax(p, q), fmax(r, s))};
}

struct ends interval_divide(struct ends a, struct ends b) {
    if (b.low <= 0 && b.high >= 0)
        return (struct ends){-INFINITY, INFINITY};
    double p = a.low / b.low, q = a.low / b.high;
    double r = a.high / b.low, s = a.high / b.high;
    return (struct ends){fmin(fmin(p, q), fmin(r, s)),
                         fmax(fmax(p, q), fmax(r, s))};
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
        return (struct ends){0, fmax(low, high)};
    return (struct ends){fmin(low, high), fmax(low, high)};
}

struct ends interval_abs(struct ends a) {
    double low = fabs(a.low), high = fabs(a.high);
    if (a.low <= 0 && a.high >= 0)
        return (struct ends){0, fmax(low, high)};
    return (struct ends){fmin(low, high), fmax(low, high)};
}

struct ends interval_min(struct ends a, struct ends b) {
    return (struct ends){fmin(a.low, b.low), fmin(a.high, b.high)};
}

struct ends interval_max(struct ends a, struct ends b) {
    return (struct ends){fmax(a.low, b.low), fmax(a.high, b.high)};
}

/* Inputs at the corner that gives the low (or high) result. */
static void place_at_corner(const struct calculation *c,
                            const struct ends *input, bool high, double *x) {
    for (size_t i = 0; i < c->input_count; i++) {
        bool up = (c->input[i].trend == TREND_RISING) == high;
        x[i] = up ? input[i].high : input[i].low;
    }
}

enum { STEPS = 32 };

/* Lowest (or highest) value while input `at`, and the ones after it that have
 * neither trend, run through their ranges. Between two steps the value may pass
 * the nearer of them by as much as they differ. */
static double extreme(const struct calculation *c, const void *fixed,
                      const struct ends *input, bool high, double *x,
                      size_t at) {
    while (at < c->input_count && (c->input[at].trend != TREND_NEITHER ||
                                   input[at].low == input[at].high))
        at++;
    if (at == c->input_count)
        return c->value(fixed, x);
    double best = 0, last = 0;
    for (int i = 0; i <= STEPS; i++) {
        double part = (double)i / STEPS;
        x[at] = input[at].low + part * (input[at].high - input[at].low);
        double y = extreme(c, fixed, input, high, x, at + 1);
        if (isnan(y))
            return NAN;
        double beyond = i == 0 ? 0 : fabs(y - last);
        double candidate = high ? fmax(y, i == 0 ? y : last) + beyond
                                : fmin(y, i == 0 ? y : last) - beyond;
        if (i == 0 || (high ? candidate > best : candidate < best))
            best = candidate;
        last = y;
    }
    return best;
}

struct ends interval_call(const struct calculation *c, const void *fixed,
                          const struct ends *input) {
    double low_at[CALCULATION_INPUTS] = {0}, high_at[CALCULATION_INPUTS] = {0};
    place_at_corner(c, input, false, low_at);
    place_at_corner(c, input, true, high_at);
    return (struct ends){extreme(c, fixed, input, false, low_at, 0),
                         extreme(c, fixed, input, true, high_at, 0)};
}

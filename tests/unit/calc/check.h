/* check.h - what the tests of the calculation library share: cmocka, nearness,
 * a fixed-seed generator, and the proof of declared trends by sampling. */
#ifndef CHECK_H
#define CHECK_H

#include "calc/calculation.h"
#include "calc/unit.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "unit/dice.h"

#ifndef SAMPLES /* the mutation run takes fewer */
#define SAMPLES 100000
#endif
#define CELSIUS(t) ((t) + 273.15)

static inline bool near(double got, double wanted, double share) {
    return fabs(got - wanted) <= fabs(wanted) * share;
}

/* Fails with both figures. */
#define assert_near(got, wanted, share)                                        \
    do {                                                                       \
        double got_ = (got), wanted_ = (wanted);                               \
        if (!near(got_, wanted_, (share)))                                     \
            fail_msg("%s: %.10g, wanted %.10g", #got, got_, wanted_);          \
    } while (0)

/* A copy without a closing NUL, so that the address sanitizer sees who reads
 * on. To be freed. */
static inline char *exact(const char *text) {
    size_t len = strlen(text);
    char *copy = malloc(len > 0 ? len : 1);
    assert_non_null(copy);
    memcpy(copy, text, len);
    return copy;
}

/* Evenly on a logarithmic scale; from > 0. */
static inline double roll_log(struct dice *d, double from, double to) {
    return exp(roll(d, log(from), log(to)));
}

struct bounds {
    double from, to;
};

/* Every unit that a calculation names must exist and, for the inputs, be
 * usable; texts must be there. */
static inline void assert_described(const struct calculation *c) {
    assert_non_null(c->name);
    assert_non_null(c->formula);
    assert_non_null(c->source);
    assert_non_null(c->validity);
    assert_non_null(c->value);
    assert_non_null(unit_find(c->unit, strlen(c->unit)));
    assert_in_range(c->input_count, 0, CALCULATION_INPUTS);
    for (size_t i = 0; i < c->input_count; i++) {
        assert_non_null(c->input[i].name);
        assert_non_null(c->input[i].meaning);
        assert_non_null(strstr(c->formula, c->input[i].name));
        assert_non_null(unit_find(c->input[i].unit, strlen(c->input[i].unit)));
    }
}

/* Samples inside the bounds: the result is finite, each rising input never
 * lowers it, each falling one never raises it, beyond rounding of the last
 * bits. An input declared neither must be seen to do both, or the declaration
 * is lazy. */
static inline void assert_trends(const struct calculation *c, const void *fixed,
                                 const struct bounds *bounds, uint64_t seed) {
    struct dice d = {seed};
    bool up[CALCULATION_INPUTS] = {false}, down[CALCULATION_INPUTS] = {false};
    assert_described(c);
    for (int n = 0; n < SAMPLES; n++) {
        double in[CALCULATION_INPUTS] = {0};
        for (size_t i = 0; i < c->input_count; i++)
            in[i] = roll(&d, bounds[i].from, bounds[i].to);
        double y = c->value(fixed, in);
        if (!isfinite(y))
            fail_msg("%s is not finite at sample %d", c->name, n);
        for (size_t i = 0; i < c->input_count; i++) {
            double was = in[i];
            in[i] = roll(&d, was, bounds[i].to);
            double moved = c->value(fixed, in);
            in[i] = was;
            double slack = 1e-12 * fmax(fabs(y), fabs(moved));
            up[i] = up[i] || moved > y + slack;
            down[i] = down[i] || moved < y - slack;
        }
    }
    for (unsigned corner = 0; corner < 1u << c->input_count; corner++) {
        double in[CALCULATION_INPUTS] = {0};
        for (size_t i = 0; i < c->input_count; i++)
            in[i] = corner >> i & 1 ? bounds[i].to : bounds[i].from;
        if (!isfinite(c->value(fixed, in)))
            fail_msg("%s is not finite at corner %u", c->name, corner);
    }
    for (size_t i = 0; i < c->input_count; i++) {
        enum trend t = c->input[i].trend;
        bool true_trend = (t == TREND_RISING && !down[i]) ||
                          (t == TREND_FALLING && !up[i]) || t == TREND_NEITHER;
        if (!true_trend)
            fail_msg("%s: the trend of %s is false", c->name, c->input[i].name);
    }
}

#endif

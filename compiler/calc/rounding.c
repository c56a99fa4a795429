/* rounding.c - from a double to the decimal that is printed.
 *
 * All decisions are taken on the 15 decimal digits that a double is sure to
 * hold, never on its binary value: 2.675 is a tie although the nearest double
 * lies below it. */
#include "calc/rounding.h"

#include <assert.h>
#include <math.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { DIGITS = 15 };

/* d.dddddddddddddd times 10^power, its digits as one whole number. */
struct decimal {
    bool minus;
    uint64_t digits;
    int power;
};

/* Powers of ten that are doubles exactly. */
static const double ten[] = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                             1e8,  1e9,  1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
                             1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};

/* x > 0 as a whole number of 15 digits, halves to even, times 10^(power - 14).
 * x 10^k is a sum of two doubles exactly, a product and what its rounding lost,
 * so that nothing is rounded twice. False where 10^k is no double. */
static bool digits_of(double x, double *digits, int *power) {
    int p = 0;
    if (!(x > 1e-8 && x < 1e14))
        return false;
    while (x >= ten[p + 1])
        p++;
    while (p <= 0 && x * ten[-p] < 1)
        p--;
    double high = x * ten[DIGITS - 1 - p];
    if (high < 1e14) /* x was rounded up to a power of ten */
        high = x * ten[DIGITS - 1 - --p];
    double low = fma(x, ten[DIGITS - 1 - p], -high);
    double n = rint(high);
    if (high - n == 0.5 && low > 0)
        n++;
    else if (high - n == -0.5 && low < 0)
        n--;
    if (n == 1e15) {
        n = 1e14;
        p++;
    }
    *digits = n;
    *power = p;
    return true;
}

static struct decimal decimal_of(double x) {
    assert(isfinite(x));
    struct decimal d = {.minus = x < 0};
    double n;
    if (digits_of(fabs(x), &n, &d.power)) {
        d.digits = (uint64_t)n;
        return d;
    }
    char text[32]; /* -d.dddddddddddddde-ddd */
    snprintf(text, sizeof text, "%.*e", DIGITS - 1, fabs(x));
    d.digits = (uint64_t)(text[0] - '0');
    for (int i = 1; i < DIGITS; i++)
        d.digits = 10 * d.digits + (uint64_t)(text[i + 1] - '0');
    d.power = (int)strtol(text + DIGITS + 2, NULL, 10);
    return d;
}

/* Do `left` of a unit, behind `whole` of them, call for one more? */
static bool rises(uint64_t whole, uint64_t left, uint64_t unit, bool minus,
                  enum round_way way) {
    if (left == 0)
        return false;
    if (way == ROUND_UP)
        return !minus;
    if (way == ROUND_DOWN)
        return minus;
    return left == unit - left ? whole % 2 == 1 : left > unit - left;
}

/* d rounded to so many decimals. */
static struct decimal rounded(struct decimal d, int decimals,
                              enum round_way way) {
    int keep = d.power + 1 + decimals; /* digits that stay */
    if (d.digits == 0 || keep >= DIGITS)
        return d;
    if (keep < 0) { /* less than a tenth of the last place: 0 and a trace */
        d.digits = 1;
        d.power = -decimals;
        keep = 1;
    }
    uint64_t unit = (uint64_t)ten[DIGITS - keep];
    uint64_t whole = d.digits / unit, left = d.digits % unit;
    whole += rises(whole, left, unit, d.minus, way);
    d.digits = whole * unit;
    if (d.digits == (uint64_t)1e15) {
        d.digits /= 10;
        d.power++;
    }
    return d;
}

/* The digit that stands for 10^place. */
static char digit_at(const struct decimal *d, int place) {
    int i = d->power - place;
    if (i < 0 || i >= DIGITS)
        return '0';
    return (char)('0' + d->digits / (uint64_t)ten[DIGITS - 1 - i] % 10);
}

void round_text(char out[ROUND_TEXT_MAX], double x, int decimals,
                enum round_way way) {
    struct decimal d = rounded(decimal_of(x), decimals, way);
    size_t at = 0;
    if (d.minus && d.digits != 0)
        out[at++] = '-';
    int top = d.power > 0 ? d.power : 0;
    while (top > 0 && digit_at(&d, top) == '0')
        top--;
    for (int place = top; place >= 0; place--)
        out[at++] = digit_at(&d, place);
    if (decimals > 0)
        out[at++] = '.';
    for (int place = -1; place >= -decimals && at < ROUND_TEXT_MAX - 1; place--)
        out[at++] = digit_at(&d, place);
    out[at] = '\0';
}

/* The digits are a whole number that a double holds; times or over a power of
 * ten that is one too, it is rounded once, to the double that is nearest. */
static bool value_of(const struct decimal *d, double *value) {
    int scale = DIGITS - 1 - d->power;
    if (scale < 0 || scale >= (int)(sizeof ten / sizeof ten[0]))
        return false;
    double whole = (double)d->digits;
    *value = (d->minus && whole > 0 ? -whole : whole) / ten[scale];
    return true;
}

static double value_at(double x, struct decimal d, int decimals,
                       enum round_way way) {
    double value;
    d = rounded(d, decimals, way);
    if (value_of(&d, &value))
        return value;
    char text[ROUND_TEXT_MAX];
    round_text(text, x, decimals, way);
    return strtod(text, NULL);
}

double round_value(double x, int decimals, enum round_way way) {
    return value_at(x, decimal_of(x), decimals, way);
}

double round_snap(double x) {
    assert(isfinite(x));
    double n;
    int power;
    if (digits_of(fabs(x), &n, &power)) {
        n /= ten[DIGITS - 1 - power];
        return x < 0 ? -n : n;
    }
    char text[32];
    snprintf(text, sizeof text, "%.*e", DIGITS - 1, x);
    return strtod(text, NULL);
}

double round_step(double x, double step, enum round_way way) {
    assert(isfinite(x) && step > 0);
    return round_snap(round_value(x / step, 0, way) * step);
}

double round_step_from(double x, double step, double from, enum round_way way) {
    double steps = round_snap(from / step);
    if (steps == floor(steps)) /* halves go to even multiples of the step */
        return round_step(x, step, way);
    return round_snap(from + round_step(round_snap(x - from), step, way));
}

static int decimals_of(struct decimal d, int significant) {
    if (d.digits == 0)
        return 0;
    int decimals = significant - 1 - d.power;
    struct decimal r = rounded(d, decimals, ROUND_HALF_EVEN);
    return r.power > d.power ? decimals - 1 : decimals;
}

int round_decimals(double x, int significant) {
    return decimals_of(decimal_of(x), significant);
}

double round_digits(double x, int significant, int most) {
    if (most < 22 && fabs(x) < 1 / ten[most + 1])
        return 0; /* less than a tenth of the last place */
    struct decimal d = decimal_of(x);
    int decimals = decimals_of(d, significant);
    return value_at(x, d, decimals < most ? decimals : most, ROUND_HALF_EVEN);
}

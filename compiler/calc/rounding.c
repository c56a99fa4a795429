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

/* d.ddd... times 10^power, digits as '0' to '9'. */
struct decimal {
    bool minus;
    char digit[DIGITS];
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
        uint64_t left = (uint64_t)n;
        for (int i = DIGITS; i-- > 0; left /= 10)
            d.digit[i] = (char)('0' + left % 10);
        return d;
    }
    char text[32]; /* -d.dddddddddddddde-ddd */
    snprintf(text, sizeof text, "%.*e", DIGITS - 1, fabs(x));
    d.digit[0] = text[0];
    memcpy(d.digit + 1, text + 2, DIGITS - 1);
    d.power = (int)strtol(text + DIGITS + 2, NULL, 10);
    return d;
}

static bool all_zero(const char *digit, int count) {
    for (int i = 0; i < count; i++)
        if (digit[i] != '0')
            return false;
    return true;
}

/* Does dropping the digits from index `keep` on call for one more in the last
 * place kept? keep is at least 0. */
static bool rises(const struct decimal *d, int keep, enum round_way way) {
    if (keep >= DIGITS || all_zero(d->digit + keep, DIGITS - keep))
        return false;
    if (way == ROUND_UP)
        return !d->minus;
    if (way == ROUND_DOWN)
        return d->minus;
    if (d->digit[keep] != '5')
        return d->digit[keep] > '5';
    if (!all_zero(d->digit + keep + 1, DIGITS - keep - 1))
        return true;
    return keep > 0 && d->digit[keep - 1] % 2 == 1; /* '0' is even */
}

/* d rounded to so many decimals. */
static struct decimal rounded(struct decimal d, int decimals,
                              enum round_way way) {
    if (all_zero(d.digit, DIGITS))
        return d;
    int keep = d.power + 1 + decimals; /* digits that stay */
    if (keep >= DIGITS)
        return d;
    if (keep < 0) { /* less than a tenth of the last place: 0 and a trace */
        memset(d.digit, '0', DIGITS);
        d.digit[DIGITS - 1] = '1';
        d.power = -decimals;
        keep = 1;
    }
    bool up = rises(&d, keep, way);
    memset(d.digit + keep, '0', (size_t)(DIGITS - keep));
    if (!up)
        return d;
    int i = keep - 1;
    while (i >= 0 && d.digit[i] == '9')
        d.digit[i--] = '0';
    if (i >= 0) {
        d.digit[i]++;
        return d;
    }
    memmove(d.digit + 1, d.digit, DIGITS - 1);
    d.digit[0] = '1';
    d.power++;
    return d;
}

/* The digit that stands for 10^place. */
static char digit_at(const struct decimal *d, int place) {
    int i = d->power - place;
    return i >= 0 && i < DIGITS ? d->digit[i] : '0';
}

void round_text(char out[ROUND_TEXT_MAX], double x, int decimals,
                enum round_way way) {
    struct decimal d = rounded(decimal_of(x), decimals, way);
    size_t at = 0;
    if (d.minus && !all_zero(d.digit, DIGITS))
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
    double whole = 0;
    for (int i = 0; i < DIGITS; i++)
        whole = 10 * whole + (d->digit[i] - '0');
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

static int decimals_of(struct decimal d, int significant) {
    if (all_zero(d.digit, DIGITS))
        return 0;
    int decimals = significant - 1 - d.power;
    struct decimal r = rounded(d, decimals, ROUND_HALF_EVEN);
    return r.power > d.power ? decimals - 1 : decimals;
}

int round_decimals(double x, int significant) {
    return decimals_of(decimal_of(x), significant);
}

/* x > 0 by its 15 digits as a whole number. */
static double whole_digits(double digits, int power, int kept) {
    uint64_t n = (uint64_t)digits, unit = (uint64_t)ten[DIGITS - kept];
    uint64_t whole = n / unit, left = n % unit;
    whole += left > unit - left || (left == unit - left && whole % 2 == 1);
    return (double)(whole * unit) / ten[DIGITS - 1 - power];
}

double round_digits(double x, int significant, int most) {
    double n;
    int power;
    if (most < 22 && fabs(x) < 1 / ten[most + 1])
        return 0; /* less than a tenth of the last place */
    if (digits_of(fabs(x), &n, &power)) {
        int kept = power + 1 + most;
        kept = kept < significant ? kept : significant;
        n = whole_digits(n, power, kept < DIGITS ? kept : DIGITS);
        return x < 0 && n > 0 ? -n : n;
    }
    struct decimal d = decimal_of(x);
    int decimals = decimals_of(d, significant);
    return value_at(x, d, decimals < most ? decimals : most, ROUND_HALF_EVEN);
}

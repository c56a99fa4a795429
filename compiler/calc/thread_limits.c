/* thread_limits.c - limits of size and the shear areas that follow from them.
 */
#include "calc/thread.h"
#include "calc/thread_table.h"

#include <math.h>

#define PI 3.14159265358979323846
#define MM 1e-3
#define MICRON 1e-6
#define INCH 0.0254
#define SAME 1e-6

static bool same(double a, double b) {
    return fabs(a - b) < SAME;
}

static bool metric_limits(const struct thread *t, struct thread_limits *out) {
    double d = t->diameter / MM, p = t->pitch / MM;
    int range = -1;
    while (range < DIAMETER_RANGES && d > diameter_range[range + 1] + SAME)
        range++;
    const struct pitch_row *by_pitch = pitch_table;
    while (by_pitch->pitch > 0 && !same(by_pitch->pitch, p))
        by_pitch++;
    const struct pitch_diameter_row *row = pitch_diameter_table;
    while (row->pitch > 0 && !(row->range == range && same(row->pitch, p)))
        row++;
    if (by_pitch->pitch == 0 || row->pitch == 0)
        return false;
    out->external_major_min =
        t->diameter - (by_pitch->g + by_pitch->major) * MICRON;
    out->external_pitch_min =
        t->pitch_diameter - (by_pitch->g + row->external) * MICRON;
    out->internal_pitch_max = t->pitch_diameter + row->internal * MICRON;
    out->internal_minor_max = t->minor + by_pitch->minor * MICRON;
    return true;
}

/* x > 0 inches to so many decimals, a half upward. */
static double rounded(double x, int decimals) {
    double unit = pow(10, -decimals);
    return floor(x / unit + 0.5 + 1e-6) * unit;
}

/* ASME B1.1, class 2A and 2B, all in inches:
 *   Td2 = 0.0015 D^(1/3) + 0.0015 Le^(1/2) + 0.015 P^(2/3), Le = D, or 9 P for
 *   extra-fine, constant-pitch and special threads; allowance 0.3 Td2; major
 *   diameter 0.060 P^(2/3); internal pitch diameter 1.3 Td2; internal minor
 *   diameter 0.25 P - 0.4 P^2, below 1/4 in 0.05 P^(2/3) + 0.03 P/D - 0.002 but
 *   not below the former nor above 0.394 P.
 * Td2 is rounded to 6 decimals (to 4 for the allowance), allowance and
 * tolerances to 4 before use, as in the standard's tables. From memory of the
 * standard; the limits of #10-24 to 1-8 agree to the last printed figure. */
static bool unified_limits(const struct thread *t, struct thread_limits *out) {
    double d = t->diameter / INCH, p = t->pitch / INCH;
    bool by_diameter = t->series == THREAD_COARSE || t->series == THREAD_FINE;
    double engaged = by_diameter ? d : 9 * p;
    double two_thirds = cbrt(p * p);
    double td2 = rounded(
        0.0015 * cbrt(d) + 0.0015 * sqrt(engaged) + 0.015 * two_thirds, 6);
    double allowance = rint(3e3 * rounded(td2, 4)) * 1e-4; /* 0.3 Td2 */
    double minor = 0.25 * p - 0.4 * p * p;
    if (d < 0.25 - SAME)
        minor = fmin(0.394 * p,
                     fmax(minor, 0.05 * two_thirds + 0.03 * p / d - 0.002));
    double d2 = rounded(t->pitch_diameter / INCH, 4);
    double d1 = rounded(t->minor / INCH, 4) + rounded(minor, 4);
    out->external_major_min =
        (d - allowance - rounded(0.060 * two_thirds, 4)) * INCH;
    out->external_pitch_min = (d2 - allowance - rounded(td2, 4)) * INCH;
    out->internal_pitch_max = (d2 + rounded(1.3 * td2, 4)) * INCH;
    out->internal_minor_max = rounded(d1, d < 0.138 - SAME ? 4 : 3) * INCH;
    return true;
}

bool thread_limits(const struct thread *t, struct thread_limits *out) {
    return t->unified ? unified_limits(t, out) : metric_limits(t, out);
}

bool thread_shear(const struct thread *t, struct thread_shear *out) {
    struct thread_limits l;
    if (!thread_limits(t, &l))
        return false;
    double p = t->pitch;
    double inner = l.internal_minor_max, outer = l.external_major_min;
    out->external =
        PI * inner / p * (p / 2 + 0.57735 * (l.external_pitch_min - inner));
    out->internal =
        PI * outer / p * (p / 2 + 0.57735 * (outer - l.internal_pitch_max));
    return true;
}

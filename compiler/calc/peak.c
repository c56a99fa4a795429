/* peak.c - steps to bracket a peak, parabolas to come nearer. */
#include "calc/peak.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

enum { ROUNDS_MAX = 12 };
#define CLOSE 1e-5                 /* of the whole width */
#define NEAR 1e-4                  /* of it, inwards from an end */
#define GOLDEN 0.38196601125010515 /* (3 - √5) / 2 */

struct search {
    peak_function *f;
    void *of;
};

static struct peak tried(const struct search *s, double x) {
    double y = s->f(s->of, x);
    return (struct peak){x, isfinite(y) ? y : -INFINITY};
}

/* The vertex of the parabola through three points; outside them, or on the
 * middle one, the golden section of the wider side instead. */
static double next_of(const struct peak p[3]) {
    double left = p[1].at - p[0].at, right = p[2].at - p[1].at;
    double down_left = right * (p[1].value - p[0].value);
    double down_right = left * (p[1].value - p[2].value);
    double x = p[1].at + (down_left * right - down_right * left) /
                             (2 * (down_left + down_right));
    if (x > p[0].at && x < p[2].at && x != p[1].at)
        return x;
    return right > left ? p[1].at + GOLDEN * right : p[1].at - GOLDEN * left;
}

/* p[1] is the best of the three, and stays so. */
static void narrow(struct peak p[3], struct peak found) {
    bool right = found.at > p[1].at;
    if (found.value > p[1].value) {
        p[right ? 0 : 2] = p[1];
        p[1] = found;
    } else {
        p[right ? 2 : 0] = found;
    }
}

struct peak peak_find(peak_function *f, void *of, double from, double to) {
    const struct search s = {f, of};
    struct peak step[PEAK_STEPS + 1];
    int best = 0;
    for (int i = 0; i <= PEAK_STEPS; i++) {
        step[i] = tried(
            &s, i == PEAK_STEPS ? to : from + (to - from) * i / PEAK_STEPS);
        if (step[i].value > step[best].value)
            best = i;
    }
    struct peak p[3];
    if (best > 0 && best < PEAK_STEPS) {
        memcpy(p, step + best - 1, sizeof p);
    } else { /* does it fall from the end on? */
        double inward = (best == 0 ? 1 : -1) * NEAR * (to - from);
        struct peak near = tried(&s, step[best].at + inward);
        if (near.value <= step[best].value)
            return step[best];
        p[0] = best == 0 ? step[0] : step[PEAK_STEPS - 1];
        p[1] = near;
        p[2] = best == 0 ? step[1] : step[PEAK_STEPS];
    }
    for (int round = 0; round < ROUNDS_MAX; round++) {
        double before = p[1].at, x = next_of(p);
        narrow(p, tried(&s, x));
        if (fabs(x - before) < CLOSE * (to - from))
            break;
    }
    return p[1];
}

/* circuit_volts.c - a voltage as a meter shows it. */
#include "values/circuit_volts.h"

#include "values/figure.h"

#include <math.h>
#include <stdlib.h>

/* Steps in which a voltage is printed. Fine: a tenth of them. */
static double step_of(double si, bool fine) {
    double step = fabs(si) < 0.01 ? 1e-4 : fabs(si) < 0.1 ? 1e-3 : 1e-2;
    return fine ? step / 10 : step;
}

static double in_steps(double si, double step, enum round_way way) {
    char text[ROUND_TEXT_MAX];
    round_text(text, si / step, 0, way);
    return strtod(text, NULL) * step;
}

static const char *volts_in(struct arena *a, double si, bool fine,
                            enum round_way way) {
    double step = step_of(si, fine), shown = in_steps(si, step, way);
    bool small = fabs(shown) < 1;
    const struct unit *u = small ? unit_find("mV", 2) : unit_find("V", 1);
    double least = small ? 1e-3 : 1;
    int decimals = 0;
    for (; step < least * 0.99; least /= 10)
        decimals++;
    return figure_text(a, shown, u, u->dim, decimals, ROUND_HALF_EVEN);
}

const char *circuit_volts(struct arena *a, double si, enum round_way way) {
    return volts_in(a, si, false, way);
}

void circuit_volts_expect(struct arena *a, double expected, double end,
                          const char **expects, const char **accepts) {
    enum round_way way = end < expected ? ROUND_UP : ROUND_DOWN;
    bool fine = false, within = false;
    for (int i = 0; i < 2 && !within; i++) {
        fine = i > 0;
        double mid =
            in_steps(expected, step_of(expected, fine), ROUND_HALF_EVEN);
        double last = in_steps(end, step_of(end, fine), way);
        within = end < expected ? last <= mid : last >= mid;
    }
    *expects = volts_in(a, expected, fine, ROUND_HALF_EVEN);
    *accepts = within ? volts_in(a, end, fine, way) : *expects;
}

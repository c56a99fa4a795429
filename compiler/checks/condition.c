/* condition.c - what calculations must show for a row of the hazard catalogue.
 *
 *   condition = measure [ (">=" | ">") number unit ]                        */
#include "checks/condition.h"

#include "calc/rounding.h"
#include "calc/unit.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const struct {
    const char *name, *unit; /* NULL unit: no figure behind it */
} measures[MEASURE_COUNT] = {
    [MEASURE_BATTERY] = {"battery feed", NULL},
    [MEASURE_VOLTAGE] = {"voltage", "V"},
    [MEASURE_FAULT] = {"fault current", "A"},
    [MEASURE_SURFACE] = {"surface temperature", "degC"},
    [MEASURE_ENERGY] = {"stored energy", "J"},
    [MEASURE_ENERGY_50V] = {"stored energy at 50 V or more", "J"},
    [MEASURE_MASS] = {"part mass", "kg"},
    [MEASURE_LITHIUM] = {"lithium battery", NULL},
    [MEASURE_OVERCHARGE] = {"charge above the battery's limit", NULL},
    [MEASURE_SAFETY_DROP] = {"drop at a safety load", "%"},
    [MEASURE_STAINLESS] = {"stainless thread", NULL},
    [MEASURE_PRESSURE] = {"hydraulic pressure", "bar"},
    [MEASURE_UNFUSED] = {"unfused feed", NULL},
    [MEASURE_STANDS] = {"stands stated", NULL},
};

static bool read_bound(struct text t, const char *unit, struct condition *out) {
    char number[32];
    t = text_trim(t);
    size_t end = 0;
    while (end < t.len && t.start[end] != ' ')
        end++;
    if (end == 0 || end >= sizeof number)
        return false;
    memcpy(number, t.start, end);
    number[end] = '\0';
    char *behind;
    double value = strtod(number, &behind);
    struct text name = text_trim(text_part(t, end, t.len));
    const struct unit *u = unit_find(name.start, name.len);
    const struct unit *wanted = unit_find(unit, strlen(unit));
    if (*behind != '\0' || u == NULL || !dim_equal(u->dim, wanted->dim))
        return false;
    out->bound = unit_to_si(u, value);
    return true;
}

bool condition_read(struct text t, struct condition *out,
                    struct nearest *near) {
    size_t at = 0;
    while (at < t.len && t.start[at] != '>')
        at++;
    struct text name = text_trim(text_part(t, 0, at));
    bool figure = at < t.len;
    *out = (struct condition){0};
    *near = nearest_to(name);
    out->above = figure && (at + 1 >= t.len || t.start[at + 1] != '=');
    for (int i = 0; i < MEASURE_COUNT; i++) {
        nearest_offer(near, text_of(measures[i].name));
        if (!text_is(name, measures[i].name))
            continue;
        out->measure = (enum measure)i;
        if (!figure || measures[i].unit == NULL)
            return !figure && measures[i].unit == NULL;
        return read_bound(text_part(t, at + (out->above ? 1 : 2), t.len),
                          measures[i].unit, out);
    }
    return false;
}

bool condition_met(const struct condition *c, double value) {
    if (!isfinite(value))
        return value > 0; /* not NAN: nothing to compare */
    double a = round_snap(value), b = round_snap(c->bound);
    return c->above ? a > b : a >= b;
}

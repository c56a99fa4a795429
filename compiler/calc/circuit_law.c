/* circuit_law.c - the current through one part of a circuit. */
#include "calc/circuit_law.h"

#include "calc/conductor.h"

#include <math.h>

#define LINEAR_BELOW 1.0 /* V */
#define EXPONENT_MAX 80.0
#define ZERO_DEGC 273.15

static double load(const struct circuit_part_law *p, double u) {
    switch (p->law) {
    case LAW_LAMP:
        return p->figure[0] * pow(u / p->figure[1], LAW_LAMP_EXPONENT);
    case LAW_POWER:
        return p->figure[0] / u;
    case LAW_CURRENT:
        return p->figure[0];
    case LAW_RESISTANCE:
    case LAW_SUPPLY:
    case LAW_LIMITED:
    case LAW_WIRE:
    case LAW_DIODE:
    case LAWS:
        break;
    }
    return NAN;
}

static double load_slope(const struct circuit_part_law *p, double u) {
    if (p->law == LAW_LAMP)
        return load(p, u) * LAW_LAMP_EXPONENT / u;
    return p->law == LAW_POWER ? -p->figure[0] / (u * u) : 0;
}

static double through_load(const struct circuit_part_law *p, double u,
                           double *slope) {
    double size = fabs(u);
    if (size < LINEAR_BELOW) {
        *slope = load(p, LINEAR_BELOW) / LINEAR_BELOW;
        return *slope * u;
    }
    *slope = load_slope(p, size);
    return copysign(load(p, size), u);
}

/* I = 2 U / (R + sqrt(R^2 + 4 k U^2)), but no less than a melting wire takes.
 */
static double through_wire(const struct circuit_part_law *p, double u,
                           double *slope) {
    double r = p->figure[0], k = p->figure[1];
    double root = sqrt(r * r + 4 * k * u * u);
    double melting = 1 / p->figure[2];
    double g = 2 / (r + root);
    if (g <= melting) {
        *slope = melting;
        return melting * u;
    }
    *slope = g - g * g * 2 * k * u * u / root;
    return g * u;
}

static double through_diode(const struct circuit_part_law *p, double u,
                            double *slope) {
    double x = u / p->figure[1], most = exp(EXPONENT_MAX);
    double grown = x < EXPONENT_MAX ? exp(x) : most * (1 + x - EXPONENT_MAX);
    *slope = p->figure[0] / p->figure[1] * (x < EXPONENT_MAX ? grown : most) +
             LAW_DIODE_LEAK;
    return p->figure[0] * (grown - 1) + LAW_DIODE_LEAK * u;
}

/* A that it would give if nothing limited it; u is minus against plus. */
static double unlimited(const struct circuit_part_law *p, double u) {
    return (u + p->figure[0]) / p->figure[1];
}

static double through_limited(const struct circuit_part_law *p, double u,
                              double *slope) {
    double s = unlimited(p, u), most = p->figure[2];
    bool held = s > most;
    *slope = (held ? LAW_LIMIT_SLOPE : 1 - LAW_LIMIT_SLOPE) / p->figure[1];
    return (held ? most : s) + LAW_LIMIT_LEAK * fabs(s - most);
}

double circuit_law_current(const struct circuit_part_law *p, double u,
                           double *slope) {
    switch (p->law) {
    case LAW_RESISTANCE:
        *slope = 1 / p->figure[0];
        return u / p->figure[0];
    case LAW_SUPPLY:
        *slope = 1 / p->figure[1];
        return unlimited(p, u);
    case LAW_LIMITED:
        return through_limited(p, u, slope);
    case LAW_WIRE:
        return through_wire(p, u, slope);
    case LAW_LAMP:
    case LAW_CURRENT:
    case LAW_POWER:
        return through_load(p, u, slope);
    case LAW_DIODE:
        return through_diode(p, u, slope);
    case LAWS:
        break;
    }
    *slope = NAN;
    return NAN;
}

/* R / (1 - k I^2), but no more than it has when it melts. */
static double wire_voltage(const struct circuit_part_law *p, double i,
                           double *slope) {
    double r = p->figure[0], heat = p->figure[1] * i * i, left = 1 - heat;
    if (left * p->figure[2] <= r) {
        *slope = p->figure[2];
        return p->figure[2] * i;
    }
    double hot = r / left;
    *slope = hot * (1 + heat) / left;
    return hot * i;
}

double circuit_law_voltage(const struct circuit_part_law *p, double i,
                           double *slope) {
    if (p->law == LAW_WIRE)
        return wire_voltage(p, i, slope);
    *slope = p->law == LAW_RESISTANCE ? p->figure[0] : NAN;
    return *slope * i;
}

double circuit_law_moves(const struct circuit_part_law *p, double u, int by) {
    double step = fabs(p->figure[by]) * 1e-6 + 1e-12, slope;
    struct circuit_part_law more = *p, less = *p;
    more.figure[by] += step;
    less.figure[by] -= step;
    return (circuit_law_current(&more, u, &slope) -
            circuit_law_current(&less, u, &slope)) /
           (2 * step);
}

double circuit_law_start(const struct circuit_part_law *p) {
    switch (p->law) {
    case LAW_RESISTANCE:
    case LAW_WIRE:
        return 1 / p->figure[0];
    case LAW_SUPPLY:
    case LAW_LIMITED:
        return 1 / p->figure[1];
    case LAW_LAMP:
        return p->figure[0] / p->figure[1];
    case LAW_CURRENT: /* a load is meant for about 12 V */
        return p->figure[0] / 12;
    case LAW_POWER:
        return p->figure[0] / 144;
    case LAW_DIODE:
        return 10;
    case LAWS:
        break;
    }
    return NAN;
}

bool circuit_law_is_supply(enum circuit_law law) {
    return law == LAW_SUPPLY || law == LAW_LIMITED;
}

double circuit_law_rest(const struct circuit_part_law *p) {
    return circuit_law_is_supply(p->law) ? -p->figure[0] : 0;
}

double circuit_law_knee(const struct circuit_part_law *p) {
    if (p->law == LAW_LIMITED)
        return p->figure[2] * p->figure[1];
    bool load =
        p->law == LAW_LAMP || p->law == LAW_CURRENT || p->law == LAW_POWER;
    return load ? LINEAR_BELOW : INFINITY;
}

bool circuit_law_is_at_limit(const struct circuit_part_law *p, double u) {
    return p->law == LAW_LIMITED && unlimited(p, u) >= p->figure[2];
}

bool circuit_law_is_linear(enum circuit_law law) {
    return law == LAW_RESISTANCE || law == LAW_SUPPLY;
}

struct circuit_part_law circuit_law_wire(double r20, double ta, double rated,
                                         double reference, double base,
                                         enum material m) {
    double b = conductor_beta(m) - ZERO_DEGC; /* to kelvin */
    double k = (rated - reference) / ((rated + b) * base * base);
    double r = r20 * conductor_ratio(m, ZERO_DEGC + 20, ta);
    return (struct circuit_part_law){
        LAW_WIRE, {r, k, r * (conductor_melting(m) + b) / (ta + b)}};
}

double circuit_law_temperature(const struct circuit_part_law *p, double current,
                               double ta, enum material m) {
    double b = conductor_beta(m) - ZERO_DEGC;
    double left = 1 - p->figure[1] * current * current;
    double hot = left > 0 ? (ta + b) / left - b : INFINITY;
    return fmin(hot, conductor_melting(m));
}

/* circuit_part_law.c - the law of a part of a circuit at its figures. */
#include "calc/conductor.h"
#include "calc/heating.h"
#include "values/circuit_part.h"

#include <math.h>

#define ZERO_DEGC 273.15

/* 1/(A2 s): a current that flows for a short time t makes (b + T) grow by
 * exp(k I^2), k = t/(C S)^2 (heating.h), for which the law has 1/(1 - k I^2):
 * half a per cent more where a cable gets 30 K warmer, never less. */
static double heat_of_second(const struct ampacity *a) {
    double cs = heating_capacity(a->use.material) * a->use.size->area;
    return 1 / (cs * cs);
}

static struct circuit_part_law steady_law(const struct circuit_piece *p,
                                          const double *x) {
    const struct ampacity *a = &p->run->ampacity;
    return circuit_law_wire(x[0] * x[1], x[2], a->rated, a->reference,
                            a->amp * a->bundle, a->use.material);
}

double circuit_part_before(const struct circuit_piece *p, const double *x) {
    struct circuit_part_law law = steady_law(p, x);
    return circuit_law_temperature(&law, p->warm, x[2],
                                   p->run->ampacity.use.material);
}

/* Through which an engine is cranked: what lasts heats as it does for hours,
 * and from there on all of the current without loss of heat for one cranking.
 */
static struct circuit_part_law cranked_law(const struct circuit_piece *p,
                                           const double *x) {
    struct circuit_part_law law = steady_law(p, x);
    double left = 1 - law.figure[1] * p->warm * p->warm;
    double melted = law.figure[2];
    law.figure[0] =
        left * melted > law.figure[0] ? law.figure[0] / left : melted;
    law.figure[1] =
        fmin(law.figure[1], x[3] * heat_of_second(&p->run->ampacity));
    return law;
}

struct circuit_part_law circuit_part_law(const struct circuit_piece *p,
                                         const double *x) {
    struct circuit_part_law law = {p->law, {0, 0, 0}};
    switch (p->law) {
    case LAW_RESISTANCE:
        law.figure[0] = p->figure_count == 2 ? x[1] / x[0] : x[0];
        break;
    case LAW_LIMITED:
        law.figure[2] = x[2];
        law.figure[1] = x[1];
        law.figure[0] = x[0];
        break;
    case LAW_SUPPLY:
    case LAW_LAMP:
        law.figure[0] = x[0];
        law.figure[1] = x[1];
        break;
    case LAW_WIRE:
        law = p->figure_count == WIRE_CRANKED ? cranked_law(p, x)
                                              : steady_law(p, x);
        break;
    case LAW_CURRENT:
        law.figure[0] = x[0];
        break;
    case LAW_POWER:
        law.figure[0] = x[0] * x[1];
        break;
    case LAW_DIODE:
        law.figure[0] = LAW_DIODE_SATURATION;
        law.figure[1] = LAW_DIODE_SLOPE;
        break;
    case LAWS:
        break;
    }
    return law;
}

/* A wire's resistance goes with its length, with its resistance a metre and,
 * until it melts, with b + ambient (circuit_law_wire). */
static double wire_moves(const struct circuit_piece *p, const double *x,
                         size_t k, double u, double current, double slope,
                         const struct circuit_part_law *law) {
    bool melted = fabs(u) >= (1 - 1e-9) * law->figure[2] * fabs(current);
    double b = conductor_beta(p->run->ampacity.use.material) - ZERO_DEGC;
    if (k < 2)
        return -slope * u / x[k];
    if (k == 3) { /* how long an engine is cranked, until heat is lost too */
        double second = heat_of_second(&p->run->ampacity);
        return melted || steady_law(p, x).figure[1] <= x[3] * second
                   ? 0
                   : circuit_law_moves(law, u, 1) * second;
    }
    return melted ? 0 : -slope * u / (b + x[k]);
}

/* The laws are powers of their figures, so that dI/dx = n I/x. */
double circuit_part_moves(const struct circuit_piece *p, const double *x,
                          size_t k, double u,
                          const struct circuit_part_law *law) {
    double slope, current = circuit_law_current(law, u, &slope);
    switch (p->law) {
    case LAW_RESISTANCE: /* R, or I and U */
        return (p->figure_count == 2 && k == 0 ? 1 : -1) * current / x[k];
    case LAW_SUPPLY:
        return k == 0 ? slope : -current / x[k];
    case LAW_LIMITED: /* E, R, and the rating, as the rest of the slope */
        return k == 0   ? slope
               : k == 1 ? -slope * (u + x[0]) / x[1]
                        : 1 - slope * x[1];
    case LAW_LAMP:
        return (k == 0 ? 1 : -LAW_LAMP_EXPONENT) * current / x[k];
    case LAW_CURRENT: /* at whatever voltage */
        return k == 0 ? current / x[k] : 0;
    case LAW_POWER:
        return current / x[k];
    case LAW_WIRE:
        return wire_moves(p, x, k, u, current, slope, law);
    case LAW_DIODE:
    case LAWS:
        break;
    }
    return 0;
}

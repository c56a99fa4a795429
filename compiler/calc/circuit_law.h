/* circuit_law.h - the current through one part of a circuit at the voltage
 * across it: what the nodal solution is made of.
 *
 * Every law is odd where the part has no direction, and passes through the
 * origin but for a supply. A load is a plain resistance below 1 V, where its
 * own law says nothing that can be measured. */
#ifndef CIRCUIT_LAW_H
#define CIRCUIT_LAW_H

#include "calc/size.h"

#include <stdbool.h>
#include <stddef.h>

enum circuit_law {
    LAW_RESISTANCE, /* R, ohm */
    LAW_SUPPLY,     /* E, V; R, ohm: enters at minus, leaves at plus */
    LAW_WIRE,       /* R at ambient, ohm; k, 1/A2; R when it melts, ohm */
    LAW_LAMP,       /* I, A at U, V: I (u/U)^0.55 */
    LAW_CURRENT,    /* I, A */
    LAW_POWER,      /* P, W */
    LAW_DIODE,      /* Is, A; n Vt, V */
    LAWS
};

enum { LAW_FIGURES = 3 };

struct circuit_part_law {
    enum circuit_law law;
    double figure[LAW_FIGURES];
};

/* The hot filament: from memory, makers' rule for gas-filled lamps, within 10 %
 * of the rated voltage; used from 1 V up. */
#define LAW_LAMP_EXPONENT 0.55
/* A silicon rectifier, 0.9 V at 10 A: from memory. */
#define LAW_DIODE_SATURATION 1.5e-7 /* A */
#define LAW_DIODE_SLOPE 0.05        /* V: n = 1.93 at 300 K */
#define LAW_DIODE_LEAK 1e-6         /* S, past the junction: from memory */

/* A at u volts; *slope is its derivative, A/V. */
double circuit_law_current(const struct circuit_part_law *p, double u,
                           double *slope);
/* The other way round, of a resistance or a wire: V at i amperes; *slope is its
 * derivative, ohm. NAN: of another law. */
double circuit_law_voltage(const struct circuit_part_law *p, double i,
                           double *slope);
/* Derivative of the current by a figure, at a fixed voltage. */
double circuit_law_moves(const struct circuit_part_law *p, double u, int by);
/* A conductance to begin with, S. */
double circuit_law_start(const struct circuit_part_law *p);
bool circuit_law_is_linear(enum circuit_law law);

/* A wire whose resistance at 20 degC is r20 (all its length), at ambient ta
 * (K), with the heat balance that its ampacity fixes (wire.h):
 *   T + b = (Ta + b) / (1 - k I^2), k = (Tc - Tref) / ((Tc + b) Ia^2)
 * so that U = I R / (1 - k I^2), never hotter than the melting point. */
struct circuit_part_law circuit_law_wire(double r20, double ta, double rated,
                                         double reference, double base,
                                         enum material m);
/* K, at this current. */
double circuit_law_temperature(const struct circuit_part_law *p, double current,
                               double ta, enum material m);

#endif

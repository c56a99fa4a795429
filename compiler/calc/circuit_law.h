/* circuit_law.h - the current through one part of a circuit at the voltage
 * across it: what the nodal solution is made of.
 *
 * Every law is odd where the part has no direction, and passes through the
 * origin but for a supply. A load is a plain resistance below 1 V, where its
 * own law says nothing that can be measured.
 *
 * A supply that limits itself holds its voltage behind R up to its rated output
 * L, and then its current, while the voltage gives way:
 *   I = min(s, L) + k |s - L|, s = (E - U) / R, k = LAW_LIMIT_LEAK
 * of U volts between its posts, L > 0. Backwards, U > E, it takes what a plain
 * supply would. A charger or a converter is so by its control, an alternator by
 * its reactance, which lets little more through than its rating (ISO
 * 13297:2020, 12.3, names them self-limiting devices). k makes one solution of
 * many: a source and a load that both hold the same current have it at the
 * knee. In a short of a 20 A charger, 28 V behind 5 mohm, it is 6 nA. */
#ifndef CIRCUIT_LAW_H
#define CIRCUIT_LAW_H

#include "calc/size.h"

#include <stdbool.h>
#include <stddef.h>

enum circuit_law {
    LAW_RESISTANCE, /* R, ohm */
    LAW_SUPPLY,     /* E, V; R, ohm: enters at minus, leaves at plus */
    LAW_LIMITED,    /* E, V; R, ohm; L, A: a supply that limits itself */
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

#define LAW_LIMIT_LEAK 1e-12
/* Share of 1/R, and of an ampere of its rating, by which the current of such a
 * supply is taken to move past the knee and before it, where next to nothing
 * does: the matrix stays regular, and each slope has the sign that leads a
 * search for the worst end to the other side. */
#define LAW_LIMIT_SLOPE 1e-7
/* The hot filament: from memory, makers' rule for gas-filled lamps, within 10 %
 * of the rated voltage; used from 1 V up. */
#define LAW_LAMP_EXPONENT 0.55
/* A silicon rectifier, 0.9 V at 10 A: from memory. */
#define LAW_DIODE_SATURATION 1.5e-7 /* A */
#define LAW_DIODE_SLOPE 0.05        /* V: n = 1.93 at 300 K */
#define LAW_DIODE_LEAK 1e-6         /* S, past the junction: from memory */

/* A at u volts; *slope is its derivative, A/V, but see LAW_LIMIT_SLOPE. */
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
/* V at which it takes nothing: 0, of a supply -E. */
double circuit_law_rest(const struct circuit_part_law *p);
/* V past its rest from which on the chord from there grows flatter: of a load
 * 1 V, of a supply that limits itself L R. INFINITY: it has no such knee. */
double circuit_law_knee(const struct circuit_part_law *p);
/* Whether a supply that limits itself gives all that it may, at u volts. */
bool circuit_law_is_at_limit(const struct circuit_part_law *p, double u);
bool circuit_law_is_supply(enum circuit_law law);
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

/* wire.h - a loaded wire: its temperature, resistance, drop, heat, and the
 * current of a fault at its end.
 *
 * The length L is always that of the conductor: both ways where the return is
 * of the same size, one way where feed and return are computed apart.
 * Resistance r per metre at 20 degC is an input, so that "nominal to largest
 * allowed" is a range like any other. */
#ifndef WIRE_H
#define WIRE_H

#include "calc/ampacity.h"
#include "calc/calculation.h"

/* `fixed` of all calculations here but those at a stated temperature. */
struct wire_run {
    struct ampacity ampacity; /* of ampacity_find */
};

enum wire_result {
    /* A. Ta */
    WIRE_AMPACITY,
    /* K, of the conductor. I, Ta. Heat balance: rise = (Tc - Tref) (I/Ia)^2
     * (b+T)/(b+Tc), Ia with bundle factor, without ambient factor; solved in
     * closed form, never above the melting point, where the wire fails. */
    WIRE_TEMPERATURE,
    /* K, the same without resistance rise: Ta + (Tc - Tref) (I/Ia)^2. */
    WIRE_TEMPERATURE_SQUARE,
    /* ohm. I, Ta, L, r */
    WIRE_RESISTANCE,
    /* V. I, Ta, L, r, Rj (all joints and contacts of the run) */
    WIRE_DROP,
    /* 1 (per cent of U). I, Ta, L, r, Rj, U */
    WIRE_DROP_SHARE,
    /* V at the load. U, then as WIRE_DROP */
    WIRE_LOAD_VOLTAGE,
    /* W in the wire. I, Ta, L, r */
    WIRE_HEAT,
    /* W/m. I, Ta, r */
    WIRE_HEAT_PER_METRE,
    /* m of conductor that keeps the drop at dU. dU, I, Ta, r, Rj; 0 when the
     * joints alone drop more */
    WIRE_LONGEST,
    /* A into a dead short at the end: U/(Rs + r L (b+T)/(b+20) + Rj). U, Rs, L,
     * r, T, Rj. fixed: const enum material *. High: cold wire, nominal r, Rj 0.
     * Low: hot wire, largest r, all joints. */
    WIRE_FAULT,
    /* At a conductor temperature T that something else decides, as one
     * cranking; fixed: const enum material *.
     * ohm: r L (b+T)/(b+20). T, L, r */
    WIRE_RESISTANCE_AT,
    /* V: I (r L (b+T)/(b+20) + Rj). I, T, L, r, Rj */
    WIRE_DROP_AT,
    /* W in the wire: I^2 r L (b+T)/(b+20). I, T, L, r */
    WIRE_HEAT_AT,
    WIRE_RESULTS
};
const struct calculation *wire_calculation(enum wire_result r);

/* s that current I needs to take the conductor from ti to tf (K) at ambient ta:
 *
 *     dT/dt = (I/(C S))^2 (b + T) - G (T - Ta)
 *
 * with C of heating.h, S the area, and the loss G that the ampacity table
 * fixes: G = (Ia/(C S))^2 (b + Tc)/(Tc - Tref). The equation is linear and
 * solved exactly. INFINITY when tf is never reached; 0 when ti is not below tf;
 * NAN for I < 0. Only the metal stores heat, so the time is on the short side.
 * Goes over into HEATING_TIME for short times and into WIRE_TEMPERATURE for
 * long ones. */
double wire_time(const struct wire_run *run, double current, double ti,
                 double ta, double tf);

#endif

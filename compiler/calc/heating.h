/* heating.h - a conductor under a current of short duration: cranking, a fault
 * before the fuse opens. No heat leaves the metal (adiabatic), so beyond about
 * 5 s the wire is cooler than computed, never hotter. */
#ifndef HEATING_H
#define HEATING_H

#include "calc/calculation.h"
#include "calc/size.h"

/* Rated and final temperatures of insulation kinds under a fault. */
struct insulation {
    const char *name; /* "PVC 105", ... */
    double rated;     /* K */
    double limit;     /* K, at the end of a fault up to 5 s */
    const char *source;
};
const struct insulation *insulation_find(const char *name, size_t len);
const struct insulation *insulation_at(size_t index); /* NULL past the end */
/* When only the rating (K) is known: the kind with the lowest limit among those
 * of this rating, or of the next lower one. Silicone counts by name only. NULL
 * when the rating is below all. */
const struct insulation *insulation_rated(double rated);

/* k = C sqrt(ln((b+Tf)/(b+Ti))), A s^0.5/m2, temperatures in K; C = 226e6
 * (copper), 148e6 (aluminium). NAN unless -b < Ti < Tf.
 * Source: IEC 60949, IEC 60364-5-54 Annex A. */
double heating_k(enum material m, double ti, double tf);
double heating_capacity(enum material m); /* C */

/* `fixed` */
struct heated {
    const struct wire_size *size;
    enum material material;
};

enum heating_result {
    /* s that current I needs from Ti to Tf: (k S / I)^2. I, Ti, Tf */
    HEATING_TIME,
    /* A that does it in time t: k S / sqrt(t). t, Ti, Tf */
    HEATING_CURRENT,
    /* K after t: (b+Ti) exp((I/(C S))^2 t) - b, not above melting. I, t, Ti */
    HEATING_TEMPERATURE,
    /* A that melts a bare wire in free air, settled (about 10 s): 10244 d^1.5,
     * d in inches of a solid wire of the same area (aluminium 7585). No inputs.
     */
    HEATING_PREECE,
    /* A that melts bare copper in t: S sqrt(log10((1083-Ta)/(234+Ta)+1)/(33
     * t)), S in circular mils, Ta in degC. t, Ta */
    HEATING_ONDERDONK,
    HEATING_RESULTS
};
const struct calculation *heating_calculation(enum heating_result r);

#endif

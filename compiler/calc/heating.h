/* heating.h - a conductor under a current of short duration: cranking, a fault
 * before the fuse opens. No heat leaves the metal (adiabatic). */
#ifndef HEATING_H
#define HEATING_H

#include "calc/calculation.h"
#include "calc/size.h"

/* Start and final temperatures of insulation kinds under a fault. */
struct insulation {
    const char *name; /* "PVC 105", ... */
    double rated;     /* K */
    double limit;     /* K, at the end of a fault up to 5 s */
    const char *source;
};
const struct insulation *insulation_find(const char *name, size_t len);
const struct insulation *insulation_at(size_t index); /* NULL past the end */
/* By rating when only that is known: the lower limit of those with this rating;
 * *source says so. K; NAN when no kind has it. */
double insulation_limit(double rated, const char **source);

/* `fixed` */
struct heated {
    const struct wire_size *size;
    enum material material;
};

enum heating_result {
    /* A s^0.5/m2: k = C sqrt(ln((b+Tf)/(b+Ti))). Ti, Tf */
    HEATING_K,
    /* s that current I needs from Ti to Tf: (k S / I)^2. I, Ti, Tf */
    HEATING_TIME,
    /* A that does it in time t. t, Ti, Tf */
    HEATING_CURRENT,
    /* K after t: (b+Ti) exp((I/(C S))^2 t) - b, not above melting. I, t, Ti */
    HEATING_TEMPERATURE,
    /* A that melts bare copper in free air, settled (about 10 s): 80 d^1.5,
     * d in mm of a solid wire of the same area (aluminium 59.2). No inputs. */
    HEATING_PREECE,
    /* A that melts it in t: S sqrt(log10((Tm-Ta)/(234+Ta)+1)/(33 t)), S in
     * circular mils. t, Ta. Copper. */
    HEATING_ONDERDONK,
    HEATING_RESULTS
};
const struct calculation *heating_calculation(enum heating_result r);

#endif

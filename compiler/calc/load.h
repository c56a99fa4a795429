/* load.h - what a load takes at another voltage than the one it was measured
 * at. */
#ifndef LOAD_H
#define LOAD_H

#include "calc/calculation.h"

enum load_kind {
    LOAD_RESISTIVE, /* a heater too */
    LOAD_LAMP,
    LOAD_POWER,
    LOAD_LEVEL /* a motor, a constant current: the same at any voltage */
};

/* By the word of a `kind` setting; LOAD_LEVEL for any other. */
enum load_kind load_kind_find(const char *word, size_t len);
/* Current (A) from the measured one, its voltage and that of now, in this
 * order; `fixed` is not used. NULL for LOAD_LEVEL. Source: Ohm's law, P = U I;
 * a lamp by LAW_LAMP_EXPONENT (circuit_law.h). */
const struct calculation *load_calculation(enum load_kind kind);

#endif

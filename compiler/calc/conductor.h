/* conductor.h - resistance of a metre of wire, and how it moves with
 * temperature. */
#ifndef CONDUCTOR_H
#define CONDUCTOR_H

#include "calc/calculation.h"
#include "calc/size.h"

#include <stdbool.h>

/* "copper", "tinned copper", "aluminium". */
const char *material_name(enum material m);
bool material_find(const char *name, size_t len, enum material *out);

/* Resistance of a metre at 20 degC, ohm/m.
 *
 * nominal = f / (conductivity * area): conductivity 58 MS/m (annealed copper,
 * IACS) or 1/0.028264 (aluminium, 61 % IACS); lay factor f = 1.02 for stranded
 * wire whose standard states no resistance (AWG, SAE, AU), else 1.
 * most = the largest that the wire's standard allows: a table for IEC 60228,
 * ISO 6722, JIS AV; elsewhere the nominal figure itself. Take nominal to most
 * as a range. */
struct resistance {
    double nominal, most; /* ohm/m at 20 degC */
    double lay;           /* f */
    const char *source;
};
/* false: the standard does not make this size in this material. */
bool conductor_resistance(const struct wire_size *s, enum material m,
                          struct resistance *out);

/* R(to)/R(from) = (b + to)/(b + from), temperatures in K; b from copper's
 * inferred zero resistance at -234.5 degC, aluminium's at -228 degC. Valid -50
 * to 200 degC, where the line is good; used up to the melting point for
 * estimates. NAN below the zero point. Source: IEC 60287-1-1, IEC 60364-5-54.
 */
double conductor_ratio(enum material m, double from, double to);
/* 234.5 or 228, in kelvin above the zero-resistance point at 0 degC. */
double conductor_beta(enum material m);
/* K; 1357.77 copper (ITS-90), 933.473 aluminium. */
double conductor_melting(enum material m);
/* ohm m at 20 degC. */
double conductor_resistivity(enum material m);

enum conductor_result {
    CONDUCTOR_RESISTANCE, /* R = r L (b+T)/(b+20): inputs r, L, T; fixed:
                             const enum material * */
    CONDUCTOR_RESULTS
};
const struct calculation *conductor_calculation(enum conductor_result r);

#endif

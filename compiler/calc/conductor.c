/* conductor.c - resistance of a metre of wire. */
#include "calc/conductor.h"
#include "calc/word.h"

#include <math.h>
#include <stddef.h>

#define ZERO_C 273.15 /* K */

/* Resistivity at 20 degC: annealed copper 1/58 ohm mm2/m (IEC 60028, IACS 100
 * %); aluminium 0.028264 (IEC 60364-5-54 Annex A, 61 % IACS). beta: 234.5 and
 * 228 (IEC 60287-1-1, IEC 60364-5-54). Melting: 1357.77 K and 933.473 K
 * (ITS-90). */
static const struct {
    const char *name;
    double resistivity; /* ohm m */
    double beta, melting;
} metal[MATERIALS] = {
    [MATERIAL_COPPER] = {"copper", 1e-6 / 58, 234.5, 1357.77},
    [MATERIAL_TINNED] = {"tinned copper", 1e-6 / 58, 234.5, 1357.77},
    [MATERIAL_ALUMINIUM] = {"aluminium", 0.028264e-6, 228, 933.473},
};

/* Lay of stranded wire: a strand is 2 % longer than the cable. Source: NFPA 70
 * Chapter 9 Table 8, which it reproduces within 0.5 %; ASTM B8. */
#define LAY 1.02
/* Least conductivity of tin-coated wire 0.28 to 0.50 mm: 94.16 %. Source: from
 * memory: ASTM B33 (1.062, as Table 8's ratio for 7 x 0.015 in). */
#define TIN (1 / 0.9416)

const char *material_name(enum material m) {
    return metal[m].name;
}

bool material_find(const char *name, size_t len, enum material *out) {
    for (int m = 0; m < MATERIALS; m++) {
        if (word_is(name, len, metal[m].name)) {
            *out = (enum material)m;
            return true;
        }
    }
    return false;
}

double conductor_beta(enum material m) {
    return metal[m].beta;
}

double conductor_melting(enum material m) {
    return metal[m].melting;
}

double conductor_resistivity(enum material m) {
    return metal[m].resistivity;
}

/* Does the standard make the system's wires in this material at all, where it
 * states no resistance? */
static bool made_of(const struct wire_size *s, enum material m) {
    switch (s->system) {
    case WIRE_AWG_SOLID:
    case WIRE_AWG_STRANDED:
        return true;
    case WIRE_SAE:
    case WIRE_AU:
        return m != MATERIAL_ALUMINIUM;
    case WIRE_ISO6722:
    case WIRE_CLASS2:
    case WIRE_CLASS5:
    case WIRE_JIS:
    case WIRE_SYSTEMS:
        break;
    }
    return false;
}

bool conductor_resistance(const struct wire_size *s, enum material m,
                          struct resistance *out) {
    bool stated = !isnan(s->most[m]);
    if (!stated && !made_of(s, m))
        return false;
    bool lay = s->system == WIRE_AWG_STRANDED || s->system == WIRE_SAE ||
               s->system == WIRE_AU;
    out->lay = lay ? LAY : 1;
    out->nominal = metal[m].resistivity / s->area * out->lay;
    if (stated)
        out->most = s->most[m];
    else
        out->most = out->nominal * (m == MATERIAL_TINNED ? TIN : 1);
    out->source = s->source;
    return true;
}

double conductor_ratio(enum material m, double from, double to) {
    double zero = ZERO_C - metal[m].beta;
    if (!(from > zero) || !(to > zero))
        return NAN;
    return (to - zero) / (from - zero);
}

static double resistance(const void *fixed, const double *in) {
    const enum material *m = fixed;
    if (!(in[0] >= 0) || !(in[1] >= 0))
        return NAN;
    return in[0] * in[1] * conductor_ratio(*m, ZERO_C + 20, in[2]);
}

static const struct calculation calculations[CONDUCTOR_RESULTS] = {
    [CONDUCTOR_RESISTANCE] =
        {
            .name = "resistance of a conductor",
            .formula = "R = r * L * (b + T) / (b + 20 °C)",
            .source = "IEC 60287-1-1; b = 234.5 for copper, 228 for aluminium",
            .validity = "r and L not negative; T above -b; the line is good "
                        "from -50 °C to 200 °C",
            .unit = "ohm",
            .input_count = 3,
            .input = {{"r", "resistance per length at 20 °C", "ohm/m",
                       TREND_RISING},
                      {"L", "length of conductor", "m", TREND_RISING},
                      {"T", "conductor temperature", "degC", TREND_RISING}},
            .value = resistance,
        },
};

const struct calculation *conductor_calculation(enum conductor_result r) {
    return &calculations[r];
}

/* heating.c - a conductor under a current of short duration. */
#include "calc/heating.h"
#include "calc/conductor.h"
#include "calc/word.h"

#include <math.h>
#include <string.h>

#define ZERO_C 273.15
#define PI 3.14159265358979323846
#define CMIL 5.0670747909749778e-10 /* m2: pi/4 (0.001 in)2 */
#define INCH 0.0254

#define IEC "IEC 60364-4-43 Table 43A limits"
#define ASSUMED                                                                \
    "assumed like the same material in IEC 60364-4-43; no standard found for " \
    "vehicle cable"

static const struct insulation insulations[] = {
    {"rubber 60", 60 + ZERO_C, 200 + ZERO_C, IEC},
    {"PVC 70", 70 + ZERO_C, 160 + ZERO_C, IEC},
    {"rubber 85", 85 + ZERO_C, 220 + ZERO_C, IEC},
    {"PVC 90", 90 + ZERO_C, 160 + ZERO_C, IEC},
    {"XLPE 90", 90 + ZERO_C, 250 + ZERO_C, IEC},
    {"PVC 105", 105 + ZERO_C, 160 + ZERO_C, ASSUMED},
    {"XLPE 125", 125 + ZERO_C, 250 + ZERO_C, ASSUMED},
    {"silicone 180", 180 + ZERO_C, 350 + ZERO_C, IEC},
};
enum { INSULATIONS = sizeof insulations / sizeof insulations[0] };

const struct insulation *insulation_find(const char *name, size_t len) {
    for (size_t i = 0; i < INSULATIONS; i++)
        if (word_is(name, len, insulations[i].name))
            return &insulations[i];
    return NULL;
}

const struct insulation *insulation_at(size_t index) {
    return index < INSULATIONS ? &insulations[index] : NULL;
}

const struct insulation *insulation_rated(double rated) {
    const struct insulation *best = NULL;
    for (size_t i = 0; i < INSULATIONS; i++) {
        const struct insulation *k = &insulations[i];
        if (k->rated > rated + 1e-6 || strncmp(k->name, "silicone", 8) == 0)
            continue;
        if (!best || k->rated > best->rated ||
            (k->rated == best->rated && k->limit < best->limit))
            best = k;
    }
    return best;
}

double heating_capacity(enum material m) {
    return m == MATERIAL_ALUMINIUM ? 148e6 : 226e6;
}

double heating_k(enum material m, double ti, double tf) {
    double zero = ZERO_C - conductor_beta(m);
    if (!(ti > zero) || !(tf > ti) || isinf(tf))
        return NAN;
    return heating_capacity(m) * sqrt(log((tf - zero) / (ti - zero)));
}

static double value_time(const void *fixed, const double *in) {
    const struct heated *h = fixed;
    double ks = heating_k(h->material, in[1], in[2]) * h->size->area;
    return in[0] > 0 ? ks / in[0] * (ks / in[0]) : NAN;
}

static double value_current(const void *fixed, const double *in) {
    const struct heated *h = fixed;
    double ks = heating_k(h->material, in[1], in[2]) * h->size->area;
    return in[0] > 0 ? ks / sqrt(in[0]) : NAN;
}

static double value_temperature(const void *fixed, const double *in) {
    const struct heated *h = fixed;
    double zero = ZERO_C - conductor_beta(h->material);
    if (!(in[0] >= 0) || !(in[1] >= 0) || !(in[2] > zero))
        return NAN;
    double load = in[0] / (heating_capacity(h->material) * h->size->area);
    double melting = conductor_melting(h->material);
    return fmin(zero + (in[2] - zero) * exp(load * load * in[1]), melting);
}

static size_t constants_adiabatic(const void *fixed,
                                  struct calculation_constant *out) {
    const struct heated *h = fixed;
    out[0] = (struct calculation_constant){
        "C * S", heating_capacity(h->material) * h->size->area, "A.s^0.5"};
    out[1] =
        (struct calculation_constant){"b", conductor_beta(h->material), "K"};
    return 2;
}

static double value_preece(const void *fixed, const double *in) {
    const struct heated *h = fixed;
    (void)in;
    double inches = sqrt(4 * h->size->area / PI) / INCH;
    double c = h->material == MATERIAL_ALUMINIUM ? 7585 : 10244;
    return c * inches * sqrt(inches);
}

static double value_onderdonk(const void *fixed, const double *in) {
    const struct heated *h = fixed;
    double ambient = in[1] - ZERO_C;
    if (h->material == MATERIAL_ALUMINIUM || !(in[0] > 0) ||
        !(ambient > -234) || !(ambient < 1083))
        return NAN;
    double rise = (1083 - ambient) / (234 + ambient) + 1;
    return h->size->area / CMIL * sqrt(log10(rise) / (33 * in[0]));
}

#define ADIABATIC                                                              \
    "IEC 60949 and IEC 60364-5-54 Annex A: C = 226 A s^0.5/mm² for copper, "  \
    "148 for aluminium; b = 234.5 and 228"
#define UP_TO_5 "no heat lost: good to 5 s, beyond that on the safe side"

static const struct calculation calculations[HEATING_RESULTS] = {
    [HEATING_TIME] =
        {
            .name = "time in which a current heats a wire",
            .formula = "t = (C * S / I)^2 * ln((b + Tf) / (b + Ti))",
            .source = ADIABATIC,
            .validity = UP_TO_5 "; I above 0, Tf above Ti",
            .unit = "s",
            .input_count = 3,
            .input = {{"I", "current", "A", TREND_FALLING},
                      {"Ti", "temperature at the start", "degC", TREND_FALLING},
                      {"Tf", "temperature at the end", "degC", TREND_RISING}},
            .value = value_time,
        },
    [HEATING_CURRENT] =
        {
            .name = "current that heats a wire in a time",
            .formula = "I = C * S * sqrt(ln((b + Tf) / (b + Ti)) / t)",
            .source = ADIABATIC,
            .validity = UP_TO_5 "; t above 0, Tf above Ti",
            .unit = "A",
            .input_count = 3,
            .input = {{"t", "time", "s", TREND_FALLING},
                      {"Ti", "temperature at the start", "degC", TREND_FALLING},
                      {"Tf", "temperature at the end", "degC", TREND_RISING}},
            .value = value_current,
        },
    [HEATING_TEMPERATURE] =
        {
            .name = "temperature after a short current",
            .formula = "T = (b + Ti) * exp((I / (C * S))^2 * t) - b",
            .source = ADIABATIC,
            .validity = UP_TO_5 "; at most the melting point",
            .unit = "degC",
            .input_count = 3,
            .input = {{"I", "current", "A", TREND_RISING},
                      {"t", "time", "s", TREND_RISING},
                      {"Ti", "temperature at the start", "degC", TREND_RISING}},
            .value = value_temperature,
            .constants = constants_adiabatic,
        },
    [HEATING_PREECE] =
        {
            .name = "melting current, settled",
            .formula = "I = c * d^1.5, d in inches, c = 10244 copper, 7585 "
                       "aluminium",
            .source = "Preece's law as an engineering page quotes it",
            .validity = "bare round wire in free air, about 10 s; the "
                        "insulation fails long before",
            .unit = "A",
            .input_count = 0,
            .value = value_preece,
        },
    [HEATING_ONDERDONK] =
        {
            .name = "melting current in a time",
            .formula = "I = S * sqrt(log10((1083 - Ta) / (234 + Ta) + 1) / "
                       "(33 * t)), S in circular mils",
            .source = "from memory: Onderdonk's equation; two published uses "
                      "agree, one has the sign of Ta wrong",
            .validity = "bare copper, up to about 10 s; the insulation fails "
                        "long before",
            .unit = "A",
            .input_count = 2,
            .input = {{"t", "time", "s", TREND_FALLING},
                      {"Ta", "ambient temperature", "degC", TREND_FALLING}},
            .value = value_onderdonk,
        },
};

const struct calculation *heating_calculation(enum heating_result r) {
    return &calculations[r];
}

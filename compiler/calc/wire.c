/* wire.c - a loaded wire: temperature, resistance, drop, heat, fault current.
 *
 * Heat balance. A wire that carries I loses h (T - Ta) and makes I^2 R(T), R(T)
 * in proportion to b + T (in degC; b = 234.5 for copper). The ampacity table
 * says that I = Ia gives T = Tc at Ta = Tref, which fixes h:
 *
 *     T - Ta = (Tc - Tref) (I/Ia)^2 (b + T)/(b + Tc)
 *
 * With k = (Tc - Tref) (I/Ia)^2/(b + Tc) that is T = (Ta + k b)/(1 - k) in
 * degC. From k = 1 on there is no balance: the wire heats until it melts.
 * Beyond the melting point the result stays there, so that a check against an
 * insulation limit fails instead of vanishing. */
#include "calc/wire.h"
#include "calc/conductor.h"
#include "calc/heating.h"

#include <math.h>

#define ZERO_C 273.15
#define AT_20 (ZERO_C + 20)

/* Ampacity before any ambient factor: what the heat balance is fixed by. */
static double base_ampacity(const struct ampacity *a) {
    return a->amp * a->bundle;
}

static bool outside(double x) {
    return !(x >= 0) || isinf(x);
}

static double balance(const struct wire_run *run, double current,
                      double ambient) {
    const struct ampacity *a = &run->ampacity;
    double zero = ZERO_C - conductor_beta(a->use.material);
    if (outside(current) || !(ambient > zero) || isinf(ambient))
        return NAN;
    double melting = conductor_melting(a->use.material);
    double load = current / base_ampacity(a);
    double k = (a->rated - a->reference) * load * load / (a->rated - zero);
    if (k >= 1)
        return melting;
    return fmin(zero + (ambient - zero) / (1 - k), melting);
}

static double run_resistance(const struct wire_run *run, double current,
                             double ambient, double length, double r20) {
    if (outside(length) || outside(r20))
        return NAN;
    double t = balance(run, current, ambient);
    return r20 * length * conductor_ratio(run->ampacity.use.material, AT_20, t);
}

double wire_time(const struct wire_run *run, double current, double ti,
                 double ta, double tf) {
    const struct ampacity *a = &run->ampacity;
    double zero = ZERO_C - conductor_beta(a->use.material);
    if (outside(current) || !(ti > zero) || !(ta > zero) || !isfinite(tf))
        return NAN;
    if (ti >= tf)
        return 0;
    double cs = heating_capacity(a->use.material) * a->use.size->area;
    double heat = current / cs * (current / cs);
    double base = base_ampacity(a) / cs;
    double loss = base * base * (a->rated - zero) / (a->rated - a->reference);
    /* dT/dt = rate at any T; it moves from `first` at ti to `last` at tf. */
    double first = heat * (ti - zero) - loss * (ti - ta);
    double last = heat * (tf - zero) - loss * (tf - ta);
    if (first <= 0 || last <= 0)
        return INFINITY;
    double slope = (last - first) / (tf - ti);
    if (fabs(last - first) < first * 1e-9)
        return (tf - ti) / first;
    return log(last / first) / slope;
}

static double value_ampacity(const void *fixed, const double *in) {
    const struct wire_run *run = fixed;
    return isfinite(in[0]) ? ampacity_at(&run->ampacity, in[0]) : NAN;
}

static double value_temperature(const void *fixed, const double *in) {
    return balance(fixed, in[0], in[1]);
}

static double value_temperature_square(const void *fixed, const double *in) {
    const struct wire_run *run = fixed;
    if (outside(in[0]) || !isfinite(in[1]))
        return NAN;
    double load = in[0] / base_ampacity(&run->ampacity);
    double rise = (run->ampacity.rated - run->ampacity.reference) * load * load;
    return fmin(in[1] + rise, conductor_melting(run->ampacity.use.material));
}

static double value_resistance(const void *fixed, const double *in) {
    return run_resistance(fixed, in[0], in[1], in[2], in[3]);
}

static double value_drop(const void *fixed, const double *in) {
    if (outside(in[4]))
        return NAN;
    return in[0] * (run_resistance(fixed, in[0], in[1], in[2], in[3]) + in[4]);
}

static double value_drop_share(const void *fixed, const double *in) {
    return in[5] > 0 ? value_drop(fixed, in) / in[5] : NAN;
}

static double value_load_voltage(const void *fixed, const double *in) {
    return in[0] - value_drop(fixed, in + 1);
}

static double value_heat(const void *fixed, const double *in) {
    return in[0] * in[0] * run_resistance(fixed, in[0], in[1], in[2], in[3]);
}

static double value_heat_per_metre(const void *fixed, const double *in) {
    return in[0] * in[0] * run_resistance(fixed, in[0], in[1], 1, in[2]);
}

static double value_longest(const void *fixed, const double *in) {
    if (outside(in[0]) || !(in[1] > 0) || !(in[3] > 0) || outside(in[4]))
        return NAN;
    double left = in[0] / in[1] - in[4];
    if (!(left > 0))
        return 0;
    return left / run_resistance(fixed, in[1], in[2], 1, in[3]);
}

/* The figures of the table row; I0 is the ampacity without ambient factor. */
static size_t constants_ampacity(const void *fixed,
                                 struct calculation_constant *out) {
    const struct ampacity *a = &((const struct wire_run *)fixed)->ampacity;
    out[0] = (struct calculation_constant){"table", a->amp, "A"};
    out[1] = (struct calculation_constant){"bundle", a->bundle, "1"};
    out[2] = (struct calculation_constant){"Tc", a->rated, "degC"};
    out[3] = (struct calculation_constant){"Tref", a->reference, "degC"};
    if (a->engine == 1)
        return 4;
    out[4] = (struct calculation_constant){"engine space", a->engine, "1"};
    return 5;
}

static size_t constants_balance(const void *fixed,
                                struct calculation_constant *out) {
    const struct ampacity *a = &((const struct wire_run *)fixed)->ampacity;
    out[0] = (struct calculation_constant){"I0", base_ampacity(a), "A"};
    out[1] = (struct calculation_constant){"Tc", a->rated, "degC"};
    out[2] = (struct calculation_constant){"Tref", a->reference, "degC"};
    out[3] = (struct calculation_constant){"b", conductor_beta(a->use.material),
                                           "K"};
    return 4;
}

static size_t constants_beta(const void *fixed,
                             struct calculation_constant *out) {
    const enum material *m = fixed;
    out[0] = (struct calculation_constant){"b", conductor_beta(*m), "K"};
    return 1;
}

static double value_fault(const void *fixed, const double *in) {
    const enum material *m = fixed;
    for (int i = 0; i < 6; i++)
        if (i != 4 && outside(in[i]))
            return NAN;
    double loop = in[2] * in[3] * conductor_ratio(*m, AT_20, in[4]);
    double total = in[1] + loop + in[5];
    return total > 0 ? in[0] / total : NAN;
}

static double value_resistance_at(const void *fixed, const double *in) {
    const enum material *m = fixed;
    if (outside(in[1]) || outside(in[2]))
        return NAN;
    return in[2] * in[1] * conductor_ratio(*m, AT_20, in[0]);
}

static double value_drop_at(const void *fixed, const double *in) {
    if (outside(in[0]) || outside(in[4]))
        return NAN;
    return in[0] * (value_resistance_at(fixed, in + 1) + in[4]);
}

static double value_heat_at(const void *fixed, const double *in) {
    if (outside(in[0]))
        return NAN;
    return in[0] * in[0] * value_resistance_at(fixed, in + 1);
}

#define BALANCE                                                                \
    "heat balance that the ampacity table fixes: heat lost in proportion to "  \
    "the rise (NFPA 70 Equation 310.15(B), IEC 60364-5-52), resistance in "    \
    "proportion to b + T (IEC 60287-1-1)"
#define CURRENT_IN                                                             \
    { "I", "current", "A", TREND_RISING }
#define AMBIENT_IN                                                             \
    { "Ta", "ambient temperature", "degC", TREND_RISING }
#define LENGTH_IN                                                              \
    { "L", "length of conductor, all of it", "m", TREND_RISING }
#define RESISTANCE_IN                                                          \
    { "r", "resistance per length at 20 °C", "ohm/m", TREND_RISING }
#define CONDUCTOR_IN                                                           \
    { "T", "conductor temperature", "degC", TREND_RISING }
#define JOINTS_IN                                                              \
    { "Rj", "joints and contacts", "ohm", TREND_RISING }
#define HOT_RESISTANCE "r * L * (b + T) / (b + 20 °C)"
#define T_FROM ", T of the conductor from I and Ta"
#define AT_SOURCE "IEC 60287-1-1 for the temperature"
#define VALID_AT "none negative; T from what the current does to the conductor"
#define VALID "I, L, r, Rj not negative; T at most the melting point"

static const struct calculation calculations[WIRE_RESULTS] = {
    [WIRE_AMPACITY] =
        {
            .name = "ampacity at the ambient",
            .formula = "Ia = table * bundle * sqrt((Tc - Ta) / (Tc - Tref)), "
                       "the root at most the factor of the engine space",
            .source = "the table's own base and factors; NFPA 70 Equation "
                      "310.15(B) for the ambient",
            .validity = "0 when Ta is not below the insulation temperature",
            .unit = "A",
            .input_count = 1,
            .input = {{"Ta", "ambient temperature", "degC", TREND_FALLING}},
            .value = value_ampacity,
            .constants = constants_ampacity,
        },
    [WIRE_TEMPERATURE] =
        {
            .name = "temperature of the conductor",
            .formula = "T = Ta + (Tc - Tref) * (I / I0)^2 * (b + T) / (b + Tc)",
            .source = BALANCE,
            .validity = "steady current; at most the melting point",
            .unit = "degC",
            .input_count = 2,
            .input = {CURRENT_IN, AMBIENT_IN},
            .value = value_temperature,
            .constants = constants_balance,
        },
    [WIRE_TEMPERATURE_SQUARE] =
        {
            .name = "temperature of the conductor, square law",
            .formula = "T = Ta + (Tc - Tref) * (I / I0)^2",
            .source = "from memory: standard square-law estimate",
            .validity = "steady current; at most the melting point",
            .unit = "degC",
            .input_count = 2,
            .input = {CURRENT_IN, AMBIENT_IN},
            .value = value_temperature_square,
            .constants = constants_balance,
        },
    [WIRE_RESISTANCE] =
        {
            .name = "resistance of a wire run, hot",
            .formula = "R = " HOT_RESISTANCE T_FROM,
            .source = BALANCE,
            .validity = VALID,
            .unit = "mohm",
            .input_count = 4,
            .input = {CURRENT_IN, AMBIENT_IN, LENGTH_IN, RESISTANCE_IN},
            .value = value_resistance,
            .constants = constants_balance,
        },
    [WIRE_DROP] =
        {
            .name = "voltage drop of a wire run",
            .formula = "U = I * (" HOT_RESISTANCE " + Rj)" T_FROM,
            .source = "Ohm's law; " BALANCE,
            .validity = VALID,
            .unit = "V",
            .input_count = 5,
            .input = {CURRENT_IN, AMBIENT_IN, LENGTH_IN, RESISTANCE_IN,
                      JOINTS_IN},
            .value = value_drop,
            .constants = constants_balance,
        },
    [WIRE_DROP_SHARE] =
        {
            .name = "voltage drop of a wire run, share of the supply",
            .formula = "u = I * (" HOT_RESISTANCE " + Rj) / Us" T_FROM,
            .source = "Ohm's law; " BALANCE,
            .validity = VALID "; Us above 0",
            .unit = "%",
            .input_count = 6,
            .input = {CURRENT_IN,
                      AMBIENT_IN,
                      LENGTH_IN,
                      RESISTANCE_IN,
                      JOINTS_IN,
                      {"Us", "supply voltage", "V", TREND_FALLING}},
            .value = value_drop_share,
            .constants = constants_balance,
        },
    [WIRE_LOAD_VOLTAGE] =
        {
            .name = "voltage at the load",
            .formula = "Ul = Us - I * (" HOT_RESISTANCE " + Rj)" T_FROM,
            .source = "Ohm's law; " BALANCE,
            .validity = VALID,
            .unit = "V",
            .input_count = 6,
            .input = {{"Us", "supply voltage", "V", TREND_RISING},
                      {"I", "current", "A", TREND_FALLING},
                      {"Ta", "ambient temperature", "degC", TREND_FALLING},
                      {"L", "length of conductor, all of it", "m",
                       TREND_FALLING},
                      {"r", "resistance per length at 20 °C", "ohm/m",
                       TREND_FALLING},
                      {"Rj", "joints and contacts", "ohm", TREND_FALLING}},
            .value = value_load_voltage,
            .constants = constants_balance,
        },
    [WIRE_HEAT] =
        {
            .name = "heat in a wire run",
            .formula = "P = I^2 * " HOT_RESISTANCE T_FROM,
            .source = "Joule's law; " BALANCE,
            .validity = VALID,
            .unit = "W",
            .input_count = 4,
            .input = {CURRENT_IN, AMBIENT_IN, LENGTH_IN, RESISTANCE_IN},
            .value = value_heat,
            .constants = constants_balance,
        },
    [WIRE_HEAT_PER_METRE] =
        {
            .name = "heat in a metre of wire",
            .formula = "p = I^2 * r * (b + T) / (b + 20 °C)" T_FROM,
            .source = "Joule's law; " BALANCE,
            .validity = VALID,
            .unit = "W/m",
            .input_count = 3,
            .input = {CURRENT_IN, AMBIENT_IN, RESISTANCE_IN},
            .value = value_heat_per_metre,
            .constants = constants_balance,
        },
    [WIRE_LONGEST] =
        {
            .name = "longest run within a voltage drop",
            .formula = "L = (dU / I - Rj) / (r * (b + T) / (b + 20 °C))" T_FROM,
            .source = "Ohm's law; " BALANCE,
            .validity = VALID "; I and r above 0",
            .unit = "m",
            .input_count = 5,
            .input = {{"dU", "drop allowed", "V", TREND_RISING},
                      {"I", "current", "A", TREND_FALLING},
                      {"Ta", "ambient temperature", "degC", TREND_FALLING},
                      {"r", "resistance per length at 20 °C", "ohm/m",
                       TREND_FALLING},
                      {"Rj", "joints and contacts", "ohm", TREND_FALLING}},
            .value = value_longest,
            .constants = constants_balance,
        },
    [WIRE_FAULT] =
        {
            .name = "current into a dead short",
            .formula = "If = Us / (Rs + r * L * (b + T) / (b + 20 °C) + Rj)",
            .source = "Ohm's law; IEC 60287-1-1 for the temperature",
            .validity = "none negative; total resistance above 0",
            .unit = "A",
            .input_count = 6,
            .input = {{"Us", "voltage of the source", "V", TREND_RISING},
                      {"Rs", "resistance of the source", "ohm", TREND_FALLING},
                      {"r", "resistance per length at 20 °C", "ohm/m",
                       TREND_FALLING},
                      {"L", "length of conductor, all of it", "m",
                       TREND_FALLING},
                      {"T", "conductor temperature", "degC", TREND_FALLING},
                      {"Rj", "joints and contacts", "ohm", TREND_FALLING}},
            .value = value_fault,
            .constants = constants_beta,
        },
    [WIRE_RESISTANCE_AT] =
        {
            .name = "resistance of a wire run at its temperature",
            .formula = "R = " HOT_RESISTANCE,
            .source = AT_SOURCE,
            .validity = VALID_AT,
            .unit = "mohm",
            .input_count = 3,
            .input = {CONDUCTOR_IN, LENGTH_IN, RESISTANCE_IN},
            .value = value_resistance_at,
            .constants = constants_beta,
        },
    [WIRE_DROP_AT] =
        {
            .name = "voltage drop of a wire run at its temperature",
            .formula = "U = I * (" HOT_RESISTANCE " + Rj)",
            .source = "Ohm's law; " AT_SOURCE,
            .validity = VALID_AT,
            .unit = "V",
            .input_count = 5,
            .input = {CURRENT_IN, CONDUCTOR_IN, LENGTH_IN, RESISTANCE_IN,
                      JOINTS_IN},
            .value = value_drop_at,
            .constants = constants_beta,
        },
    [WIRE_HEAT_AT] =
        {
            .name = "heat in a wire run at its temperature",
            .formula = "P = I^2 * " HOT_RESISTANCE,
            .source = "Joule's law; " AT_SOURCE,
            .validity = VALID_AT,
            .unit = "W",
            .input_count = 4,
            .input = {CURRENT_IN, CONDUCTOR_IN, LENGTH_IN, RESISTANCE_IN},
            .value = value_heat_at,
            .constants = constants_beta,
        },
};

const struct calculation *wire_calculation(enum wire_result r) {
    return &calculations[r];
}

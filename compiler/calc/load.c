/* load.c - current of a load at another voltage. */
#include "calc/load.h"

#include "calc/circuit_law.h"

#include <math.h>
#include <string.h>

static double raised(const double *in, double exponent) {
    if (!(in[0] >= 0 && in[1] > 0 && in[2] > 0))
        return NAN;
    return in[0] * pow(in[2] / in[1], exponent);
}

static double value_resistive(const void *fixed, const double *in) {
    (void)fixed;
    return raised(in, 1);
}

static double value_lamp(const void *fixed, const double *in) {
    (void)fixed;
    return raised(in, LAW_LAMP_EXPONENT);
}

static double value_power(const void *fixed, const double *in) {
    (void)fixed;
    return raised(in, -1);
}

#define MEASURED "current, as it was measured"
#define VALIDITY "current not negative; both voltages above 0"

static const struct calculation calculations[] = {
    [LOAD_RESISTIVE] = {.name = "current of a resistance at another voltage",
                        .formula = "I = Im * U / Um",
                        .source = "Ohm's law",
                        .validity = VALIDITY,
                        .unit = "A",
                        .input_count = 3,
                        .input = {{"Im", MEASURED, "A", TREND_RISING},
                                  {"Um", "at this voltage", "V", TREND_FALLING},
                                  {"U", "voltage of the supply", "V",
                                   TREND_RISING}},
                        .value = value_resistive},
    [LOAD_LAMP] = {.name = "current of a lamp at another voltage",
                   .formula = "I = Im * (U / Um) ^ 0.55",
                   .source = "from memory: makers' rule for gas-filled lamps, "
                             "within 10 % of the rated voltage",
                   .validity = VALIDITY,
                   .unit = "A",
                   .input_count = 3,
                   .input = {{"Im", MEASURED, "A", TREND_RISING},
                             {"Um", "at this voltage", "V", TREND_FALLING},
                             {"U", "voltage of the supply", "V", TREND_RISING}},
                   .value = value_lamp},
    [LOAD_POWER] = {.name = "current of a constant power at another voltage",
                    .formula = "I = Im * Um / U",
                    .source = "P = U I",
                    .validity = VALIDITY,
                    .unit = "A",
                    .input_count = 3,
                    .input = {{"Im", MEASURED, "A", TREND_RISING},
                              {"Um", "at this voltage", "V", TREND_RISING},
                              {"U", "voltage left at the load", "V",
                               TREND_FALLING}},
                    .value = value_power},
};

enum load_kind load_kind_find(const char *word, size_t len) {
    static const struct {
        const char *word;
        enum load_kind kind;
    } words[] = {{"resistive", LOAD_RESISTIVE},
                 {"heater", LOAD_RESISTIVE},
                 {"lamp", LOAD_LAMP},
                 {"constant power", LOAD_POWER}};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (strlen(words[i].word) == len &&
            memcmp(words[i].word, word, len) == 0)
            return words[i].kind;
    return LOAD_LEVEL;
}

const struct calculation *load_calculation(enum load_kind kind) {
    return kind == LOAD_LEVEL ? NULL : &calculations[kind];
}

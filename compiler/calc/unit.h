/* unit.h - dimensions and units: every spelling the trade writes, exact
 * factors.
 *
 * All calculation is in SI: a quantity of 30 A is 30, of 16 ft 4.8768, of 45
 * degC 318.15. Factors are exact from their definitions (NIST SP 811, Appendix
 * B). */
#ifndef UNIT_H
#define UNIT_H

#include <stdbool.h>
#include <stddef.h>

enum {
    DIM_LENGTH,
    DIM_MASS,
    DIM_TIME,
    DIM_CURRENT,
    DIM_TEMPERATURE,
    DIM_TURN,
    DIM_BASES
};

/* Powers of metre, kilogram, second, ampere, kelvin, revolution. `point` tells
 * a temperature on a scale (45 degC) from a difference (45 K). */
struct dim {
    signed char power[DIM_BASES];
    bool point;
};

enum unit_system { UNIT_BOTH, UNIT_SI, UNIT_CUSTOMARY };

struct unit {
    const char *name;  /* one ASCII spelling that is read: "lbf.ft" */
    const char *label; /* how it is printed, per NIST SP 811: "lbf·ft" */
    struct dim dim;
    double factor; /* SI value = number * factor + offset */
    double offset; /* not 0 for degC and degF only */
    enum unit_system system;
};

/* The unit with this spelling, or NULL: "N.m", "Nm", "N·m", "ft-lb", "mm²",
 * "Ω", "%", "degC", "°F", "fl oz", ... Case matters where the SI says so. */
const struct unit *unit_find(const char *spelling, size_t len);
/* The unit whose spelling is the longest beginning of text that ends where a
 * word may end (not before a letter or digit); *used tells its bytes. This is
 * how spellings with a blank ("deg C", "fl oz", "sq mm") are met in running
 * text. NULL and 0 when text begins with no unit. */
const struct unit *unit_prefix(const char *text, size_t len, size_t *used);
/* The table, for help and suggestions; NULL past the end. */
const struct unit *unit_at(size_t index);
/* Every spelling that is read; NULL past the end. */
const char *unit_spelling_at(size_t index, const struct unit **of);
/* The unit in which a computed value of this dimension is printed when nothing
 * says otherwise; NULL when the table has none (then print factors of SI). */
const struct unit *unit_usual(struct dim d, enum unit_system system);
/* The unit of a difference between two values in u: K for degC, "degF diff"
 * (5/9 K, no offset) for degF, u itself for all others. */
const struct unit *unit_difference(const struct unit *u);

/* A product or quotient that the table lacks: "V/m", "N/mm2", "A.s", "mm/s2".
 * Factors are joined by '.', '·' or '*', and at most one '/' stands before the
 * divisors, which all that follows are; each may carry a power 2, 3, 4, ² or ³.
 * Fills *out and its two texts; false when a factor is no unit, is a
 * temperature on a scale, or the texts do not fit. */
enum { UNIT_TEXT = 64 };
bool unit_compose(const char *spelling, size_t len, struct unit *out,
                  char name[UNIT_TEXT], char label[UNIT_TEXT]);

double unit_to_si(const struct unit *u, double number);
double unit_from_si(const struct unit *u, double si);

bool dim_equal(struct dim a, struct dim b); /* `point` counts */
bool dim_same(struct dim a, struct dim b);  /* `point` does not */
bool dim_none(struct dim d);
struct dim dim_product(struct dim a, struct dim b);
struct dim dim_quotient(struct dim a, struct dim b);
/* d to the power numerator/denominator; false when a power is not whole. */
bool dim_power(struct dim d, int numerator, int denominator, struct dim *out);
/* "length", "voltage", "torque or energy", or the SI product: "m2·kg/s". */
const char *dim_name(struct dim d, char out[UNIT_TEXT]);
/* The same of a unit: newton-metres and the like are of "torque", joules and
 * the like of "energy", though both have one dimension. */
const char *unit_measures(const struct unit *u, char out[UNIT_TEXT]);
/* Where the unit may be NULL: by the dimension then. */
const char *unit_measures_of(const struct unit *u, struct dim d,
                             char out[UNIT_TEXT]);
bool unit_is_energy(const struct unit *u);

#endif

/* test_gnu_units.c - every unit that is read against GNU units, both ways.
 *
 * GNU units is run once, with all questions on its standard input. A unit of
 * the table that has no row here fails the test. */
#include "calc/unit.h"

#include "check.h"

#include <unistd.h>

struct question {
    const char *name;   /* ours */
    const char *theirs; /* the same in the words of GNU units */
    const char *base;   /* SI unit that our factor leads to */
    double share;       /* tolerance; 0 means 1e-14 */
};

/* Mercury and water: ours are the printed figures of NIST SP 811, theirs have
 * more digits. */
static const struct question questions[] = {
    {"A", "A", "A", 0},
    {"mA", "mA", "A", 0},
    {"uA", "uA", "A", 0},
    {"kA", "kA", "A", 0},
    {"V", "V", "V", 0},
    {"mV", "mV", "V", 0},
    {"uV", "uV", "V", 0},
    {"kV", "kV", "V", 0},
    {"ohm", "ohm", "ohm", 0},
    {"mohm", "mohm", "ohm", 0},
    {"uohm", "uohm", "ohm", 0},
    {"kohm", "kohm", "ohm", 0},
    {"Mohm", "Mohm", "ohm", 0},
    {"S", "siemens", "siemens", 0},
    {"ohm/m", "ohm/m", "ohm/m", 0},
    {"mohm/m", "mohm/m", "ohm/m", 0},
    {"ohm/km", "ohm/km", "ohm/m", 0},
    {"ohm/ft", "ohm/ft", "ohm/m", 0},
    {"mohm/ft", "mohm/ft", "ohm/m", 0},
    {"ohm/kft", "ohm/kilofoot", "ohm/m", 0},
    {"W/m", "W/m", "W/m", 0},
    {"W/ft", "W/ft", "W/m", 0},
    {"W", "W", "W", 0},
    {"mW", "mW", "W", 0},
    {"kW", "kW", "W", 0},
    {"hp", "horsepower", "W", 0},
    {"PS", "metrichorsepower", "W", 0},
    {"BTU/h", "btu/hour", "W", 0},
    {"J", "J", "J", 0},
    {"kJ", "kJ", "J", 0},
    {"MJ", "MJ", "J", 0},
    {"Wh", "W hour", "J", 0},
    {"kWh", "kW hour", "J", 0},
    {"BTU", "btu", "J", 0},
    {"Ah", "A hour", "A s", 0},
    {"mAh", "mA hour", "A s", 0},
    {"C", "C", "A s", 0},
    {"F", "F", "F", 0},
    {"mF", "mF", "F", 0},
    {"uF", "uF", "F", 0},
    {"nF", "nF", "F", 0},
    {"pF", "pF", "F", 0},
    {"H", "H", "H", 0},
    {"mH", "mH", "H", 0},
    {"uH", "uH", "H", 0},
    {"m", "m", "m", 0},
    {"cm", "cm", "m", 0},
    {"mm", "mm", "m", 0},
    {"um", "um", "m", 0},
    {"km", "km", "m", 0},
    {"in", "inch", "m", 0},
    {"ft", "foot", "m", 0},
    {"yd", "yard", "m", 0},
    {"mi", "mile", "m", 0},
    {"mil", "mil", "m", 0},
    {"mm2", "mm^2", "m^2", 0},
    {"cm2", "cm^2", "m^2", 0},
    {"m2", "m^2", "m^2", 0},
    {"in2", "in^2", "m^2", 0},
    {"ft2", "ft^2", "m^2", 0},
    {"cmil", "circularmil", "m^2", 0},
    {"kcmil", "1000 circularmil", "m^2", 0},
    {"L", "liter", "m^3", 0},
    {"mL", "milliliter", "m^3", 0},
    {"m3", "m^3", "m^3", 0},
    {"cm3", "cm^3", "m^3", 0},
    {"in3", "in^3", "m^3", 0},
    {"ft3", "ft^3", "m^3", 0},
    {"gal", "usgallon", "m^3", 0},
    {"qt", "usquart", "m^3", 0},
    {"pt", "uspint", "m^3", 0},
    {"fl.oz", "usfloz", "m^3", 0},
    {"UKgal", "brgallon", "m^3", 0},
    {"UKpt", "brpint", "m^3", 0},
    {"kg", "kg", "kg", 0},
    {"g", "gram", "kg", 0},
    {"mg", "mg", "kg", 0},
    {"t", "tonne", "kg", 0},
    {"lb", "pound", "kg", 0},
    {"oz", "ounce", "kg", 0},
    {"ton", "shortton", "kg", 0},
    {"long.ton", "longton", "kg", 0},
    {"slug", "slug", "kg", 0},
    {"N", "N", "N", 0},
    {"kN", "kN", "N", 0},
    {"lbf", "lbf", "N", 0},
    {"ozf", "ounce force", "N", 0},
    {"kip", "kip", "N", 0},
    {"kgf", "kgf", "N", 0},
    {"N.m", "N m", "N m", 0},
    {"N.cm", "N cm", "N m", 0},
    {"N.mm", "N mm", "N m", 0},
    {"kN.m", "kN m", "N m", 0},
    {"lbf.ft", "lbf foot", "N m", 0},
    {"lbf.in", "lbf inch", "N m", 0},
    {"ozf.in", "ounce force inch", "N m", 0},
    {"kgf.m", "kgf m", "N m", 0},
    {"kgf.cm", "kgf cm", "N m", 0},
    {"Pa", "Pa", "Pa", 0},
    {"hPa", "hPa", "Pa", 0},
    {"kPa", "kPa", "Pa", 0},
    {"MPa", "MPa", "Pa", 0},
    {"GPa", "GPa", "Pa", 0},
    {"bar", "bar", "Pa", 0},
    {"mbar", "millibar", "Pa", 0},
    {"psi", "psi", "Pa", 0},
    {"ksi", "1000 psi", "Pa", 0},
    {"kgf/cm2", "kgf/cm^2", "Pa", 0},
    {"atm", "atm", "Pa", 0},
    {"inHg", "inHg", "Pa", 2e-7},
    {"mmHg", "mmHg", "Pa", 2e-7},
    {"inH2O", "inH2O", "Pa", 2e-7},
    {"K", "K", "K", 0},
    {"degF.diff", "degF", "K", 0},
    {"s", "s", "s", 0},
    {"ms", "ms", "s", 0},
    {"us", "us", "s", 0},
    {"min", "minute", "s", 0},
    {"h", "hour", "s", 0},
    {"d", "day", "s", 0},
    {"m/s", "m/s", "m/s", 0},
    {"km/h", "km/hour", "m/s", 0},
    {"mph", "mile/hour", "m/s", 0},
    {"ft/s", "foot/s", "m/s", 0},
    {"ft/min", "foot/minute", "m/s", 0},
    {"knot", "knot", "m/s", 0},
    {"L/min", "liter/minute", "m^3/s", 0},
    {"L/h", "liter/hour", "m^3/s", 0},
    {"mL/min", "milliliter/minute", "m^3/s", 0},
    {"m3/h", "m^3/hour", "m^3/s", 0},
    {"gal/min", "usgallon/minute", "m^3/s", 0},
    {"gal/h", "usgallon/hour", "m^3/s", 0},
    {"ft3/min", "foot^3/minute", "m^3/s", 0},
    {"Hz", "Hz", "Hz", 0},
    {"kHz", "kHz", "Hz", 0},
    {"MHz", "MHz", "Hz", 0},
    {"rpm", "revolution/minute", "revolution/s", 0},
    {"rad/s", "radian/s", "revolution/s", 0},
    {"deg", "degree", "revolution", 0},
    {"rad", "radian", "revolution", 0},
    {"turn", "revolution", "revolution", 0},
    {"%", "percent", "1", 0},
    {"1", "1", "1", 0},
};
enum { QUESTIONS = sizeof questions / sizeof questions[0] };

/* The two scales, asked by the point: degC and degF. */
static const double points[] = {-40, 0, 20, 32, 60, 105, 212};
enum { POINTS = sizeof points / sizeof points[0] };

static char path[] = "/tmp/bayleaf-units-XXXXXX"; /* all questions */
static FILE *answers;                             /* of the one run */

static int ask(void **state) {
    (void)state;
    int fd = mkstemp(path);
    if (fd < 0)
        return -1;
    FILE *f = fdopen(fd, "w");
    for (size_t i = 0; i < QUESTIONS; i++) {
        const struct question *q = &questions[i];
        fprintf(f, "%s\n%s\n%s\n%s\n", q->theirs, q->base, q->base, q->theirs);
    }
    for (size_t i = 0; i < POINTS; i++)
        fprintf(f, "tempF(%.17g)\ntempC\ntempC(%.17g)\ntempF\n", points[i],
                points[i]);
    fclose(f);
    char command[100];
    snprintf(command, sizeof command, "units -t -o '%%.17g' <%s", path);
    answers = popen(command, "r");
    return answers ? 0 : -1;
}

static int finish(void **state) {
    (void)state;
    unlink(path);
    return pclose(answers);
}

static double answer(const char *about) {
    char line[100];
    char *end = NULL;
    if (!fgets(line, sizeof line, answers))
        fail_msg("GNU units stopped at %s", about);
    double x = strtod(line, &end);
    if (end == line)
        fail_msg("GNU units on %s: %s", about, line);
    return x;
}

static const struct unit *unit(const char *name) {
    const struct unit *u = unit_find(name, strlen(name));
    assert_non_null(u);
    return u;
}

static void test_factors(void **state) {
    (void)state;
    for (size_t i = 0; i < QUESTIONS; i++) {
        const struct question *q = &questions[i];
        double share = q->share > 0 ? q->share : 1e-14;
        const struct unit *u = unit(q->name);
        double there = answer(q->name), back = answer(q->name);
        if (!near(unit_to_si(u, 1), there, share) ||
            !near(unit_from_si(u, 1), back, share))
            fail_msg("%s: %.17g, GNU units %.17g", q->name, u->factor, there);
    }
    for (size_t i = 0; i < POINTS; i++) {
        const struct unit *c = unit("degC"), *f = unit("degF");
        double in_c = answer("tempF"), in_f = answer("tempC");
        assert_true(fabs(unit_from_si(c, unit_to_si(f, points[i])) - in_c) <
                    1e-10);
        assert_true(fabs(unit_from_si(f, unit_to_si(c, points[i])) - in_f) <
                    1e-10);
    }
}

static void test_all_asked(void **state) {
    (void)state;
    for (size_t i = 0; unit_at(i); i++) {
        bool asked = unit_at(i)->dim.point;
        for (size_t q = 0; q < QUESTIONS && !asked; q++)
            asked = strcmp(questions[q].name, unit_at(i)->name) == 0;
        if (!asked)
            fail_msg("%s is not compared", unit_at(i)->name);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_factors),
        cmocka_unit_test(test_all_asked),
    };
    return cmocka_run_group_tests(tests, ask, finish);
}

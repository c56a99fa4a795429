/* reference_unit.h - published rows about units and rounding. */
#ifndef REFERENCE_UNIT_H
#define REFERENCE_UNIT_H

#include "calc/rounding.h"

#include "csv.h"

/* The reference's names that are not spellings of ours, and ours. */
static const struct unit *unit_named(const char *name) {
    static const char *const same[][2] = {
        {"inHg conventional", "inHg"},
        {"inH2O conventional", "inH2O"},
        {"gal (US liquid)", "gal"},
        {"gal (UK)", "UK gal"},
        {"qt (US liquid)", "qt"},
        {"fl oz (US)", "fl oz"},
        {"ton (short)", "short ton"},
        {"ton (long)", "long ton"},
        {"hp (550 ft.lbf/s)", "hp"},
        {"hp (metric, 75 kgf.m/s)", "metric hp"},
        {"hp (metric)", "metric hp"},
        {"BTU_IT", "BTU"},
        {"gal(US)/min", "gal/min"},
        {"circular mil", "circular mil"},
        {"deg (angle)", "deg"},
        {"degF difference", "degF.diff"},
        {"kcmil x1000 (2000 kcmil) -> area", "kcmil"},
    };
    for (size_t i = 0; i < sizeof same / sizeof same[0]; i++)
        if (strcmp(name, same[i][0]) == 0)
            name = same[i][1];
    return unit_find(name, strlen(name));
}

static void reference_unit_factors(void **state) {
    (void)state;
    struct csv c = csv_open("unit_factors");
    while (csv_next(&c)) {
        const struct unit *from = unit_named(csv_text(&c, "from_unit"));
        const struct unit *to = unit_named(csv_text(&c, "to_unit"));
        if (!from || !to || csv_has(&c, "factor", "F -")) {
            csv_skip(&c); /* hp (electric), cal_th; degF by its formula */
            continue;
        }
        /* 5/9 of a kelvin is printed to ten figures. */
        bool cut = csv_is(&c, "from_unit", "degF difference");
        assert_true(dim_equal(from->dim, to->dim));
        csv_check(&c, "factor", from->factor / to->factor, cut ? 1e-10 : 1e-13);
        csv_agreed(&c);
    }
    csv_close(&c);
}

static void reference_conversions(void **state) {
    (void)state;
    struct csv c = csv_open("conversions");
    while (csv_next(&c)) {
        const struct unit *from = unit_named(csv_text(&c, "from_unit"));
        const struct unit *to = unit_named(csv_text(&c, "to_unit"));
        if (!from || !to)
            fail_msg("conversions row %d: unknown unit", c.row);
        double number = csv_number(&c, "value");
        if (csv_has(&c, "from_unit", "x1000"))
            number *= 1000;
        double got = unit_from_si(to, unit_to_si(from, number));
        int figures = atoi(csv_text(&c, "stated_precision"));
        csv_check(&c, "result", got, 0.51 * pow(10, 1 - figures));
        csv_agreed(&c);
    }
    csv_close(&c);
}

/* "3 sig" or "0.01". */
static void reference_rounding(void **state) {
    (void)state;
    struct csv c = csv_open("rounding");
    while (csv_next(&c)) {
        double x = csv_number(&c, "input_decimal");
        const char *to = csv_text(&c, "round_to");
        int decimals = strstr(to, "sig")
                           ? round_decimals(x, atoi(to))
                           : (int)lround(-log10(strtod(to, NULL)));
        char text[ROUND_TEXT_MAX];
        round_text(text, x, decimals, ROUND_HALF_EVEN);
        assert_string_equal(text, csv_text(&c, "result"));
        csv_agreed(&c);
    }
    csv_close(&c);
}

#endif

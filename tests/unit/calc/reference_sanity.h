/* reference_sanity.h - published rows that bound a figure of the library, where
 * no formula gives it: limits, sheets, rules of the shop. */
#ifndef REFERENCE_SANITY_H
#define REFERENCE_SANITY_H

#include "calc/circuit_law.h"
#include "calc/contact.h"
#include "calc/hole.h"
#include "calc/relay.h"
#include "calc/screw.h"
#include "calc/torque.h"
#include "calc/wire.h"

#include "csv.h"
#include "joints.h"
#include "wires.h"

/* Half of the last printed digit: 3.6 is anything from 3.55 to 3.65. */
static bool as_printed(const struct csv *c, const char *title, double got) {
    const char *s = csv_text(c, title), *point = strchr(s, '.');
    double half = 0.5;
    for (size_t i = 0; point != NULL && point[1 + i] != '\0'; i++)
        half /= 10;
    return fabs(got - csv_number(c, title)) <= half * (1 + 1e-9);
}

/* Limits given both in volts and in per cent of the supply. */
static void reference_drop_limits(void **state) {
    (void)state;
    struct csv c = csv_open("drop_limits");
    struct ampacity a = ampacity(AMPACITY_33CFR, awg("10 AWG"), 105, 1, false);
    struct resistance r;
    assert_true(conductor_resistance(awg("10 AWG"), MATERIAL_COPPER, &r));
    struct wire_run run = {.ampacity = a};
    while (csv_next(&c)) {
        double volt = csv_number(&c, "system_voltage_V");
        double limit = csv_number(&c, "limit_V");
        if (isnan(limit) || isnan(csv_number(&c, "limit_percent")) ||
            csv_has(&c, "system_voltage_V", "or")) {
            csv_skip(&c); /* only one of the two is published */
            continue;
        }
        double in[] = {10, CELSIUS(20), 0, r.nominal, limit / 10, volt};
        double share = wire_calculation(WIRE_DROP_SHARE)->value(&run, in);
        if (!as_printed(&c, "limit_percent", share * 100))
            fail_msg("%s row %d: %g %%", c.name, c.row, share * 100);
        csv_agreed(&c);
    }
    csv_close(&c);
}

/* A tab is never said to carry more than what its connector was heated with. */
static void reference_connectors(void **state) {
    (void)state;
    struct csv c = csv_open("connector_heating");
    while (csv_next(&c)) {
        const struct wire_size *s = gauge(&c, "awg", WIRE_AWG_STRANDED);
        double heated = csv_number(&c, "current_A");
        int figures = 0;
        for (size_t i = 0; tab_at(i) != NULL; i++) {
            const char *row;
            double own = tab_current(tab_at(i), s, false, &row);
            figures += !isnan(own);
            if (own > heated)
                fail_msg("%s on %s: %g A, heated with %g A", tab_at(i)->name,
                         s->name, own, heated);
        }
        if (figures > 0)
            csv_agreed(&c);
        else
            csv_skip(&c); /* larger wire than any tab takes */
    }
    csv_close(&c);
    c = csv_open("contact_limits");
    while (csv_next(&c)) {
        const char *name = csv_text(&c, "contact");
        const struct contact *k = contact_find(name, strlen(name));
        assert_non_null(k);
        double ohm = csv_is(&c, "figure", "aged")      ? k->aged.high
                     : csv_is(&c, "figure", "typical") ? k->sound.typical
                                                       : k->sound.high;
        csv_check(&c, "limit_mV", ohm * csv_number(&c, "current_A") * 1e3,
                  1e-9);
        csv_agreed(&c);
    }
    csv_close(&c);
}

/* Makers' sheets: the coil's power is U2/R, and our coil takes all of them in.
 */
static void reference_relays(void **state) {
    (void)state;
    struct csv c = csv_open("relays");
    char last[64] = "";
    double carried = 0, rests = 0;
    while (csv_next(&c)) {
        double volt = csv_number(&c, "coil_V");
        double ohm = csv_number(&c, "coil_ohm"), slope;
        const struct relay_coil *k = relay_coil_for(volt);
        assert_true(k != NULL && k->nominal == volt);
        struct circuit_part_law coil = {LAW_RESISTANCE, {ohm, 0, 0}};
        double watt = volt * circuit_law_current(&coil, volt, &slope);
        if (!as_printed(&c, "coil_W", watt))
            fail_msg("%s row %d: %g W", c.name, c.row, watt);
        assert_true(k->resistance.low <= ohm && ohm <= k->resistance.high);
        double operates = csv_number(&c, "operate_max_V");
        double releases = csv_number(&c, "release_min_V");
        assert_true(isnan(operates) || operates <= k->operates);
        assert_true(isnan(releases) || releases >= k->releases);
        /* The same relay for another voltage. */
        double share = contact_voltage_share(volt);
        if (strcmp(csv_text(&c, "relay"), last) == 0) {
            csv_check(&c, "contact_NO_A", carried * share, 1e-9);
            csv_check(&c, "contact_NC_A", rests * share, 1e-9);
        }
        snprintf(last, sizeof last, "%s", csv_text(&c, "relay"));
        carried = csv_number(&c, "contact_NO_A");
        rests = csv_number(&c, "contact_NC_A");
        csv_agreed(&c);
    }
    csv_close(&c);
}

/* What the library asks of a lubricated stainless bolt breaks none, even at the
 * most friction of its condition. */
static void reference_breaking(void **state) {
    (void)state;
    struct csv c = csv_open("stainless_breaking");
    static const struct {
        const char *column, *grade;
    } classes[] = {{"class_50_Nm", "A2-50"},
                   {"class_70_Nm", "A2-70"},
                   {"class_80_Nm", "A4-80"}};
    const struct nut_factor *k = nut_factor_find("stainless, anti-seize", 21);
    assert_non_null(k);
    while (csv_next(&c)) {
        for (size_t i = 0; i < sizeof classes / sizeof classes[0]; i++) {
            struct torque_joint j = joint_of(csv_text(&c, "thread"),
                                             classes[i].grade, TARGET_75_PROOF);
            double none[] = {0};
            double in[] = {k->high, torque_value(PRELOAD_TARGET, &j, none)};
            double most = torque_value(TORQUE_SHORT, &j, in);
            double breaks = csv_number(&c, classes[i].column);
            if (!(most > 0 && most < breaks))
                fail_msg("%s %s: %g N m, breaks at %g N m",
                         csv_text(&c, "thread"), classes[i].grade, most,
                         breaks);
        }
        csv_agreed(&c);
    }
    csv_close(&c);
}

static void reference_more_holes(void **state) {
    (void)state;
    const char *source;
    struct csv c = csv_open("clearance_holes_b18");
    while (csv_next(&c)) {
        char text[24];
        snprintf(text, sizeof text, "%s UNC", csv_text(&c, "screw"));
        struct thread t = thread_of(text);
        double close = hole_clearance(&t, HOLE_CLOSE, &source) / MM;
        double medium = hole_clearance(&t, HOLE_MEDIUM, &source) / MM;
        if (isnan(close)) {
            csv_skip(&c); /* not in the shop chart */
            continue;
        }
        /* The shop's holes pass the screw and are within the standard's. */
        assert_true(close > t.diameter / MM);
        assert_true(close <= csv_number(&c, "close_mm"));
        assert_true(medium > close && medium <= csv_number(&c, "normal_mm"));
        csv_agreed(&c);
    }
    csv_close(&c);
    c = csv_open("lug_holes");
    while (csv_next(&c)) {
        const char *name = csv_text(&c, "stud");
        if (csv_is(&c, "unit", "mm")) {
            const struct stud *s = stud_find(name, strlen(name));
            if (s == NULL) {
                csv_skip(&c); /* no such stud */
                continue;
            }
            csv_check(&c, "diameter", s->hole / MM, 1e-9);
        } else if (csv_has(&c, "meaning", "nominal stud diameter")) {
            char text[24];
            snprintf(text, sizeof text, "%s UNC", name);
            csv_check(&c, "diameter", thread_of(text).diameter / IN, 1e-9);
        } else {
            csv_skip(&c); /* inch rings differ from maker to maker */
            continue;
        }
        csv_agreed(&c);
    }
    csv_close(&c);
}

/* Rules by which makers turn a torque for one condition into one for another:
 * our ranges take them in. */
static void reference_ratios(void **state) {
    (void)state;
    struct csv c = csv_open("condition_ratios");
    while (csv_next(&c)) {
        const char *ours = csv_text(&c, "ours");
        const char *against = csv_text(&c, "against");
        if (*ours == '\0') {
            csv_skip(&c); /* no condition of a thread */
            continue;
        }
        const struct nut_factor *a = nut_factor_find(ours, strlen(ours));
        const struct nut_factor *b = nut_factor_find(against, strlen(against));
        assert_true(a != NULL && b != NULL);
        double ratio = csv_number(&c, "ratio");
        if (ratio < a->low / b->high || ratio > a->high / b->low)
            fail_msg("%s against %s: %g", ours, against, ratio);
        csv_agreed(&c);
    }
    csv_close(&c);
}

static void reference_tools(void **state) {
    (void)state;
    struct csv c = csv_open("torque_tools");
    const struct wrench w = {10, 100, 1}, small = {2, 10, 0.1};
    while (csv_next(&c)) {
        double share = csv_number(&c, "share");
        double at = share * w.to;
        struct wrench coarse = {0, 100, 5};
        if (csv_is(&c, "what", "tolerance above 10 N m"))
            assert_near(wrench_set(&w, 50).tolerance, share, 1e-12);
        else if (csv_is(&c, "what", "tolerance to 10 N m"))
            assert_near(wrench_set(&small, 5).tolerance, share, 1e-12);
        else if (csv_is(&c, "what", "checked from"))
            assert_true(wrench_set(&w, at).checked &&
                        !wrench_set(&w, at - 1).checked);
        else if (csv_is(&c, "what", "best from"))
            assert_true(wrench_set(&w, at).best &&
                        !wrench_set(&w, at - 1).best);
        else if (csv_is(&c, "what", "best to"))
            assert_true(wrench_set(&w, at).best &&
                        !wrench_set(&w, at + 1).best);
        else if (csv_is(&c, "what", "step"))
            assert_true(wrench_set(&coarse, 5 / share).step_fine &&
                        !wrench_set(&coarse, 5 / share - 5).step_fine);
        else {
            csv_skip(&c);
            continue;
        }
        csv_agreed(&c);
    }
    csv_close(&c);
    c = csv_open("small_screw_torque");
    while (csv_next(&c)) {
        char name[16];
        snprintf(name, sizeof name, "%s AB", csv_text(&c, "size"));
        const struct tapping_screw *s = tapping_screw_find(name, strlen(name));
        double low, high;
        if (s == NULL ||
            sscanf(csv_text(&c, "torque_Nm"), "%lf-%lf", &low, &high) != 2) {
            csv_skip(&c); /* no tapping screw of the library's */
            continue;
        }
        assert_true(s->low == low && s->high == high);
        csv_agreed(&c);
    }
    csv_close(&c);
}

#endif

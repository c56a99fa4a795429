/* reference_wire.h - published rows about wire: sizes, resistance, ampacity. */
#ifndef REFERENCE_WIRE_H
#define REFERENCE_WIRE_H

#include "calc/ampacity_table.h"
#include "calc/conductor.h"
#include "calc/wire.h"

#include "csv.h"
#include "wires.h"

#define KFT 304.8 /* m */
#define CMIL (acos(-1) / 4 * 6.4516e-10)

/* "10" or "2/0" of a column as a size of a gauge system. */
static const struct wire_size *gauge(const struct csv *c, const char *column,
                                     enum wire_system system) {
    char text[32];
    snprintf(text, sizeof text, system == WIRE_SAE ? "SAE %s" : "%s AWG",
             csv_text(c, column));
    return wire(text, system);
}

static const struct wire_size *square(const struct csv *c, const char *column,
                                      enum wire_system system) {
    char text[32];
    snprintf(text, sizeof text, system == WIRE_JIS ? "AV %s" : "%s mm2",
             csv_text(c, column));
    return wire(text, system);
}

static double ohm_per_metre(const struct wire_size *s, enum material m,
                            double celsius) {
    struct resistance r;
    if (!conductor_resistance(s, m, &r))
        fail_msg("%s: no resistance", s->name);
    double in[] = {r.most, 1, CELSIUS(celsius)};
    return conductor_calculation(CONDUCTOR_RESISTANCE)->value(&m, in);
}

static void reference_awg_geometry(void **state) {
    (void)state;
    struct csv c = csv_open("awg_geometry");
    while (csv_next(&c)) {
        const struct wire_size *s = gauge(&c, "awg", WIRE_AWG_SOLID);
        double mm = sqrt(4 * s->area / acos(-1)) * 1e3;
        double cmil = s->area / CMIL;
        csv_check(&c, "area_formula_mm2", s->area * 1e6, 2e-4);
        csv_check(&c, "area_published_mm2", s->area * 1e6, 7e-3);
        csv_check(&c, "area_b258_rounded_cmil", cmil, 7e-3);
        assert_true(fabs(mm / 0.0254 -
                         csv_number(&c, "diameter_published_mil")) < 0.051);
        csv_agreed(&c);
        double chart = csv_number(&c, "area_nassau_chart_cmil");
        if (csv_is(&c, "awg", "2"))
            csv_misprint(&c, cmil, 66360, chart, 1e-3,
                         "2 AWG 66,630 cmil, should be 66,360");
        else if (!isnan(chart))
            csv_check(&c, "area_nassau_chart_cmil", cmil, 7e-3);
    }
    csv_close(&c);
}

static void reference_awg_resistance(void **state) {
    (void)state;
    struct csv c = csv_open("awg_resistance");
    static const struct {
        const char *column;
        double celsius, share;
    } column[] = {{"r20_nbs_h100_ohm_per_1000ft", 20, 6e-3},
                  {"r20_wikibooks_ohm_per_1000ft", 20, 6e-3},
                  {"r20_csdn_ohm_per_1000ft", 20, 6e-3},
                  {"r_emerson_ohm_per_1000ft", 20, 6e-3},
                  {"r25_neets_ohm_per_1000ft", 25, 6e-3},
                  {"r65_neets_ohm_per_1000ft", 65, 6e-3},
                  {"r20_formula_ohm_per_1000ft", 20, 1e-4}};
    while (csv_next(&c)) {
        const struct wire_size *s = gauge(&c, "awg", WIRE_AWG_SOLID);
        for (size_t i = 0; i < sizeof column / sizeof column[0]; i++)
            if (!isnan(csv_number(&c, column[i].column)))
                csv_check(&c, column[i].column,
                          ohm_per_metre(s, 0, column[i].celsius) * KFT,
                          column[i].share);
        csv_agreed(&c);
    }
    csv_close(&c);
}

/* NFPA 70 Chapter 9 Table 8, at 75 degC; the coated column is our own table. */
static void reference_nec_table8(void **state) {
    (void)state;
    struct csv c = csv_open("nec_table8");
    while (csv_next(&c)) {
        const struct wire_size *s = gauge(&c, "awg", WIRE_AWG_STRANDED);
        csv_check(&c, "r75_cu_uncoated_ohm_per_1000ft",
                  ohm_per_metre(s, MATERIAL_COPPER, 75) * KFT, 6e-3);
        csv_check(&c, "r75_cu_coated_ohm_per_1000ft",
                  ohm_per_metre(s, MATERIAL_TINNED, 75) * KFT, 1e-9);
        csv_check(&c, "r75_al_ohm_per_1000ft",
                  ohm_per_metre(s, MATERIAL_ALUMINIUM, 75) * KFT, 6e-3);
        csv_check(&c, "area_cmil", s->area / CMIL, 4e-3);
        csv_agreed(&c);
    }
    csv_close(&c);
}

static void reference_iec60228(void **state) {
    (void)state;
    struct csv c = csv_open("iec60228");
    while (csv_next(&c)) {
        const struct wire_size *two =
            square(&c, "nominal_area_mm2", WIRE_CLASS2);
        const struct wire_size *five =
            square(&c, "nominal_area_mm2", WIRE_CLASS5);
        csv_check(&c, "nominal_area_mm2", two->area * 1e6, 1e-9);
        csv_check(&c, "r20_max_class2_cu_plain_ohm_per_km",
                  ohm_per_metre(two, MATERIAL_COPPER, 20) * 1e3, 1e-9);
        csv_check(&c, "r20_max_class2_cu_coated_ohm_per_km",
                  ohm_per_metre(two, MATERIAL_TINNED, 20) * 1e3, 1e-9);
        csv_check(&c, "r20_max_class5_cu_plain_ohm_per_km",
                  ohm_per_metre(five, MATERIAL_COPPER, 20) * 1e3, 1e-9);
        csv_check(&c, "r20_max_class5_cu_coated_ohm_per_km",
                  ohm_per_metre(five, MATERIAL_TINNED, 20) * 1e3, 1e-9);
        if (!isnan(csv_number(&c, "r20_max_class2_al_ohm_per_km")))
            csv_check(&c, "r20_max_class2_al_ohm_per_km",
                      ohm_per_metre(two, MATERIAL_ALUMINIUM, 20) * 1e3, 1e-9);
        csv_agreed(&c);
    }
    csv_close(&c);
}

static void reference_vehicle_cable(void **state) {
    (void)state;
    struct csv c = csv_open("vehicle_cable");
    while (csv_next(&c)) {
        bool jis = csv_has(&c, "standard", "JIS");
        const struct wire_size *s =
            square(&c, "nominal_size", jis ? WIRE_JIS : WIRE_ISO6722);
        csv_check(&c, "copper_area_mm2", s->area * 1e6, 1e-9);
        csv_check(&c, "r20_max_mohm_per_m", ohm_per_metre(s, 0, 20) * 1e3,
                  1e-9);
        csv_agreed(&c);
    }
    csv_close(&c);
}

static void reference_sae_area(void **state) {
    (void)state;
    struct csv c = csv_open("sae_area");
    while (csv_next(&c)) {
        const struct wire_size *s = gauge(&c, "gauge_number", WIRE_SAE);
        const struct wire_size *a = gauge(&c, "gauge_number", WIRE_AWG_SOLID);
        csv_check(&c, "sae_min_area_cmil", s->area / CMIL, 1e-9);
        csv_check(&c, "sae_min_area_mm2", s->area * 1e6, 1e-3);
        csv_check(&c, "sae_percent_of_awg", s->area / a->area * 100, 1e-3);
        csv_agreed(&c);
    }
    csv_close(&c);
}

static void reference_australian(void **state) {
    (void)state;
    struct csv c = csv_open("australian_sizes");
    while (csv_next(&c)) {
        const struct wire_size *s = wire(csv_text(&c, "size_name"), WIRE_AU);
        csv_check(&c, "copper_area_mm2", s->area * 1e6, 1e-9);
        double strands = csv_number(&c, "construction_strands_x_mm");
        assert_near(s->area * 1e6, strands * acos(-1) / 4 * 0.32 * 0.32, 1e-2);
        csv_agreed(&c);
    }
    csv_close(&c);
}

static void reference_materials(void **state) {
    (void)state;
    struct csv c = csv_open("materials");
    while (csv_next(&c)) {
        bool copper = csv_has(&c, "material", "copper");
        enum material m = copper ? MATERIAL_COPPER : MATERIAL_ALUMINIUM;
        double value = csv_number(&c, "value");
        double mm2 = conductor_resistivity(m) * 1e6;
        if (csv_has(&c, "quantity", "resistivity") &&
            csv_is(&c, "unit", "ohm mm2/m"))
            assert_near(mm2, value, 1e-7);
        else if (csv_is(&c, "unit", "ohm cmil/ft"))
            assert_near(mm2 * 1e-6 / CMIL * 0.3048, value, 1e-4);
        else if (csv_has(&c, "quantity", "temperature coefficient"))
            assert_near(1 / (conductor_beta(m) + 20), value, 2e-3);
        else if (csv_has(&c, "quantity", "inferred absolute zero"))
            assert_near(conductor_beta(m), value, 1e-3);
        else if (csv_has(&c, "quantity", "melting"))
            assert_near(conductor_melting(m) - 273.15, value, 2e-3);
        else {
            csv_skip(&c);
            continue;
        }
        csv_agreed(&c);
    }
    csv_close(&c);
}

static void reference_ampacity_33cfr(void **state) {
    (void)state;
    struct csv c = csv_open("ampacity_33cfr");
    while (csv_next(&c)) {
        const struct wire_size *s = gauge(&c, "awg", WIRE_AWG_STRANDED);
        double insulation = csv_number(&c, "insulation_rating_C");
        struct ampacity out = ampacity(AMPACITY_33CFR, s, insulation, 1, false);
        struct ampacity in = ampacity(AMPACITY_33CFR, s, insulation, 1, true);
        csv_check(&c, "i_30C_outside_engine_space_A", ampacity_at(&out, NAN),
                  1e-12);
        csv_check(&c, "i_50C_engine_space_computed_A", ampacity_at(&in, NAN),
                  1e-6);
        double printed = csv_number(&c, "i_50C_engine_space_printed_A");
        if (!isnan(printed))
            assert_true(fabs(ampacity_at(&in, NAN) - printed) <= 0.5);
        csv_agreed(&c);
    }
    csv_close(&c);
}

/* Area by which a size of another system finds the copper row, m2. */
static double row_area(enum ampacity_table t, const char *row) {
    const struct ampacity_rows *rows = &ampacity_source_table[t].copper;
    for (size_t i = 0; i < rows->count; i++)
        if (strcmp(rows->row[i].name, row) == 0)
            return rows->row[i].area;
    return NAN;
}

static void reference_ampacity_other(void **state) {
    (void)state;
    struct csv c = csv_open("ampacity_nec");
    while (csv_next(&c)) {
        const struct wire_size *s = gauge(&c, "awg", WIRE_AWG_STRANDED);
        csv_check(&c, "i_60C_A", ampacity(AMPACITY_NEC, s, 60, 1, false).amp,
                  0);
        csv_check(&c, "i_75C_A", ampacity(AMPACITY_NEC, s, 75, 1, false).amp,
                  0);
        struct ampacity hot = ampacity(AMPACITY_NEC, s, 90, 3, false);
        csv_check(&c, "i_90C_A", ampacity_at(&hot, CELSIUS(30)), 1e-12);
        assert_true(hot.verified == csv_is(&c, "provenance", "looked-up"));
        csv_agreed(&c);
    }
    csv_close(&c);
    c = csv_open("ampacity_iso10133");
    while (csv_next(&c)) {
        const struct wire_size *s = square(&c, "area_mm2", WIRE_CLASS2);
        double insulation = csv_number(&c, "insulation_rating_C");
        struct ampacity a =
            ampacity(AMPACITY_ISO10133, s, insulation, 1, false);
        csv_check(&c, "i_30C_A", a.amp, 0);
        csv_check(&c, "area_mm2", row_area(AMPACITY_ISO10133, a.row) * 1e6,
                  1e-9);
        assert_true(!a.verified && !a.row_smaller);
        csv_agreed(&c);
    }
    csv_close(&c);
    c = csv_open("aircraft_wire");
    while (csv_next(&c)) {
        bool copper = csv_has(&c, "conductor", "copper");
        struct ampacity_use use = {AMPACITY_AC4313,
                                   gauge(&c, "awg", WIRE_AWG_STRANDED),
                                   copper ? MATERIAL_TINNED
                                          : MATERIAL_ALUMINIUM,
                                   0,
                                   40,
                                   false};
        static const struct {
            const char *column;
            double insulation;
        } column[] = {{"i_105C_insulation_A", 105},
                      {"i_150C_insulation_A", 150},
                      {"i_200C_insulation_A", 200}};
        for (size_t i = 0; i < (copper ? 3u : 2u); i++) {
            struct ampacity a;
            const char *why;
            if (copper)
                csv_check(&c, "nominal_area_cmil",
                          row_area(AMPACITY_AC4313, use.size->name) / CMIL,
                          1e-9);
            use.insulation = CELSIUS(column[i].insulation);
            assert_true(ampacity_find(&use, &a, &why));
            csv_check(&c, column[i].column, ampacity_at(&a, NAN), 1e-12);
        }
        csv_agreed(&c);
    }
    csv_close(&c);
}

/* The last number in a text: "ambient 11-15 C, insulation 60 C" has two. */
static double number_after(const char *text, const char *word) {
    const char *at = strstr(text, word);
    if (!at)
        fail_msg("'%s' lacks '%s'", text, word);
    at += strlen(word);
    const char *dash = strchr(at, '-');
    const char *end = strchr(at, ',');
    return strtod(dash && (!end || dash < end) ? dash + 1 : at, NULL);
}

static void reference_ampacity_factors(void **state) {
    (void)state;
    struct csv c = csv_open("ampacity_factors");
    const struct wire_size *ten = awg("10 AWG");
    while (csv_next(&c)) {
        const char *kind = csv_text(&c, "factor_kind");
        const char *condition = csv_text(&c, "condition");
        double printed = csv_number(&c, "factor_published");
        if (strstr(kind, "engine space")) {
            double insulation = number_after(condition, "insulation ");
            struct ampacity a =
                ampacity(AMPACITY_33CFR, ten, insulation, 1, true);
            assert_near(ampacity_ambient_factor(&a, NAN), printed, 1e-12);
            struct ampacity plain =
                ampacity(AMPACITY_33CFR, ten, insulation, 1, false);
            double f = ampacity_ambient_factor(&plain, CELSIUS(50));
            csv_check(&c, "factor_from_sqrt_formula", f, 2e-3);
            if (insulation < 200) /* printed 1.00 there, a known deviation */
                assert_true(fabs(f - printed) <= 0.01);
        } else if (strstr(kind, "boats")) {
            struct ampacity a = ampacity(
                AMPACITY_33CFR, ten, 105,
                strncmp(condition, "up to", 5) == 0 ? 2 : atoi(condition),
                false);
            assert_near(a.bundle, printed, 1e-12);
        } else if (strstr(kind, "raceway")) {
            struct ampacity a =
                ampacity(AMPACITY_NEC, ten, 90, atoi(condition), false);
            assert_near(a.bundle, printed, 1e-12);
        } else if (strstr(kind, "ambient correction")) {
            /* The 40 degC table is no table of ours: the same formula with its
             * own reference, so a column made for the purpose. */
            struct ampacity a = ampacity(AMPACITY_NEC, ten, 60, 1, false);
            a.rated = CELSIUS(number_after(condition, "insulation "));
            if (strstr(kind, "40 C base"))
                a.reference = CELSIUS(40);
            double f = ampacity_ambient_factor(
                &a, CELSIUS(number_after(condition, "ambient ")));
            csv_check(&c, "factor_from_sqrt_formula", f, 2e-3);
            assert_true(fabs(f - printed) <= 0.0061);
        } else {
            csv_skip(&c); /* readings of a graph, and formulas in words */
            continue;
        }
        csv_agreed(&c);
    }
    csv_close(&c);
}

#endif

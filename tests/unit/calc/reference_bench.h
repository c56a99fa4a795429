/* reference_bench.h - published rows about the wrench, stripping, screws,
 * metals, and the worked examples of bolts. */
#ifndef REFERENCE_BENCH_H
#define REFERENCE_BENCH_H

#include "calc/bolt_torque.h"
#include "calc/galvanic.h"
#include "calc/hole.h"
#include "calc/screw.h"
#include "calc/strip.h"

#include "reference_bolt.h"

/* The example's own force, K and diameter; "W02" rows round to 0.05 lbf in. */
static void bolt_example(struct csv *c) {
    const char *id = csv_text(c, "id");
    double wanted = row_number(c, "published_answer", 0);
    double got = NAN, within = NAN;
    if (strcmp(id, "W01a") == 0) {
        got = thread_of("1/2-13").stress_area / (IN * IN);
        within = 5e-5;
    } else if (strcmp(id, "W01c") == 0) {
        struct torque_joint j = {.thread = thread_of("1/2-13")};
        double in[] = {11707 * LBF, 0.15};
        got = torque_value(TORQUE_REDUCED, &j, in) / LBF_IN;
        within = 1.2;
    } else if (strncmp(id, "W02", 3) == 0) {
        struct torque_joint j = {.thread = thread_of("#10-32")};
        double in[] = {strtod(csv_text(c, "inputs") + 2, NULL), 1275 * LBF};
        got = torque_value(TORQUE_SHORT, &j, in) / LBF_IN;
        within = 0.05;
    } else if (strcmp(id, "W03a") == 0) {
        struct torque_joint j = {.thread = thread_of("3/4-16")};
        double in[] = {0.20, 25000 * LBF};
        got = torque_value(TORQUE_SHORT, &j, in) / LBF_IN;
        within = 1e-6;
        /* Part (a) of the same example, from memory: 3551 lbf in with f 0.15.
         */
        double exact[] = {25000 * LBF, 0.15, 0.15};
        assert_near(torque_value(TORQUE_SCREW, &j, exact) / LBF_IN, 3551, 1e-3);
    } else if (strncmp(id, "W10", 3) == 0 || strncmp(id, "W11", 3) == 0) {
        char thread[16] = "", grade[8] = "";
        sscanf(csv_text(c, "inputs"), "%15s SAE %7[0-9]", thread, grade);
        got = chart_torque(thread, grade, 0.20, 0);
        within = fmax(0.5, 0.03 * wanted);
    } else if (strcmp(id, "W13") == 0) {
        struct torque_joint j = joint_of("1/4-20", "SAE 2", TARGET_75_PROOF);
        double none[] = {0};
        got = torque_value(PRELOAD_TARGET, &j, none) / LBF;
        within = 2; /* As 0.0318 there, 0.03182 here */
    } else if (strcmp(id, "W15") == 0) {
        struct torque_joint j = joint_of("3/8-16", "A574", TARGET_75_PROOF);
        got = torque_value(PROOF_LOAD, &j, NULL) / LBF;
        within = 51;
    } else if (strcmp(id, "W16") == 0) {
        struct torque_joint j = {.thread = thread_of("3/8-16")};
        double dry[] = {0.20, 4940 * LBF}, wet[] = {0.15, 4940 * LBF};
        got = torque_value(TORQUE_SHORT, &j, dry) / LBF_FT;
        within = 1;
        assert_true(fabs(torque_value(TORQUE_SHORT, &j, wet) / LBF_FT -
                         row_number(c, "published_answer", 1)) <= 1);
    } else if (strncmp(id, "W2", 2) == 0 && csv_has(c, "topic", "strip")) {
        char thread[16] = "";
        sscanf(csv_text(c, "inputs"), "%15[^ :]", thread);
        struct thread t = thread_of(thread);
        struct thread_shear s;
        assert_true(thread_shear(&t, &s));
        got = s.internal / IN;
        within = 3e-3 * wanted;
    } else if (strcmp(id, "W26") == 0) {
        double in[] = {0.51, 0.190 * IN, IN};
        got = screw_calculation(SCREW_WOOD)->value(NULL, in) / LBF;
        within = 0.05;
    } else if (csv_has(c, "topic", "VDI long") || strcmp(id, "W08") == 0) {
        char thread[16] = "", grade[8] = "";
        if (sscanf(csv_text(c, "inputs"), "%15s class %7s", thread, grade) < 2)
            sscanf(csv_text(c, "inputs"), "%15s %7s", thread, grade);
        const char *mu = strstr(csv_text(c, "inputs"), "mu ");
        struct torque_joint j = joint_of(thread, grade, TARGET_90_YIELD);
        double in[] = {strtod(mu + 3, NULL), strtod(mu + 3, NULL)};
        got = torque_value(PRELOAD_TARGET, &j, in) / 1e3;
        within = 0.01 * wanted;
        assert_near(torque_value(TORQUE_TARGET, &j, in),
                    row_number(c, "published_answer", 1), 1.5e-2);
    } else if (strcmp(id, "W07") == 0) {
        struct torque_joint j = joint_of("M12", "8.8", TARGET_90_YIELD);
        double in[] = {0.14};
        got = torque_value(PRELOAD_TARGET, &j, in) / 1e3 / 1.8;
        within = 0.05;
    } else {
        csv_skip(c); /* rivet length, edge distance: rules of drawing */
        return;
    }
    if (!(fabs(got - wanted) <= within))
        fail_msg("%s: %.8g, published %.8g", id, got, wanted);
    csv_agreed(c);
}

static void reference_bolt_examples(void **state) {
    (void)state;
    struct csv c = csv_open("bolt_examples");
    while (csv_next(&c))
        bolt_example(&c);
    csv_close(&c);
}

static void reference_conditions(void **state) {
    (void)state;
    struct csv c = csv_open("nut_factors");
    static const struct {
        const char *theirs, *ours;
    } same[] = {
        {"non-plated, black finish", "black, dry"},
        {"zinc plated", "zinc plated"},
        {"lubricated", "lubricated"},
        {"cadmium plated", "cadmium plated"},
        {"with proprietary anti-seize", "anti-seize"},
        {"with proprietary grip nuts (lubricated lock nuts)", "waxed lock nut"},
        {"dry steel on dry steel", "clean, dry"},
        {"steel, machine oil", "oiled"},
        {"cadmium on steel", "cadmium plated"},
        {"phosphate and oil on steel", "phosphated, oiled"},
        {"zinc on steel", "zinc plated"},
        {"302 stainless on 302 stainless", "stainless, dry"},
        {"zinc/aluminium flake coating on steel", "zinc flake"},
        {"bare steel", "clean, dry"},
        {"cadmium plate, dry", "cadmium plated"},
        {"zinc plate, dry", "zinc plated, dry"},
        {"lubricated threads", "oiled"},
        {"zinc plated threads", "zinc plated"},
        {"dry (common inch torque tables)", "dry"},
        {"lubricated (common inch torque tables)", "oiled"},
        {"moly/copper anti-seize (generic)", "anti-seize"},
        {"nickel anti-seize on stainless", "stainless, anti-seize"},
        {"stainless A2/A4 dry (friction 0.30 case)", "stainless, dry"},
    };
    while (csv_next(&c)) {
        const struct nut_factor *f = NULL;
        for (size_t i = 0; i < sizeof same / sizeof same[0]; i++)
            if (csv_is(&c, "condition", same[i].theirs))
                f = nut_factor_find(same[i].ours, strlen(same[i].ours));
        if (!f) {
            csv_skip(&c); /* unknown condition is refused; a ceiling */
            continue;
        }
        /* Our range takes in what every source says of the condition. */
        double k = csv_number(&c, "K_nominal");
        double low = csv_number(&c, "K_min"), high = csv_number(&c, "K_max");
        if (isnan(low))
            low = high = k;
        if (f->low > low + 1e-12 || f->high < high - 1e-12)
            fail_msg("%s: %g to %g, published %g to %g", f->condition, f->low,
                     f->high, low, high);
        csv_agreed(&c);
    }
    csv_close(&c);
    c = csv_open("friction_classes");
    while (csv_next(&c)) {
        const struct friction *f = friction_at((size_t)c.row - 1);
        assert_string_equal(f->name, csv_text(&c, "class"));
        csv_check(&c, "mu_min", f->low, 1e-12);
        csv_check(&c, "mu_max", f->high, 1e-12);
        csv_agreed(&c);
    }
    csv_close(&c);
}

static void reference_wrench(void **state) {
    (void)state;
    struct csv c = csv_open("extension");
    while (csv_next(&c)) {
        bool inverse = csv_has(&c, "published_wrench_setting", "gives");
        double in[] = {
            row_number(
                &c, inverse ? "published_wrench_setting" : "torque_at_fastener",
                0),
            csv_number(&c, "lever_length_L"), csv_number(&c, "extension_E"), 0};
        double got = extension_calculation(inverse ? EXTENSION_TORQUE
                                                   : EXTENSION_SETTING)
                         ->value(NULL, in);
        csv_check(&c, "recomputed_here", got, 2e-5);
        csv_check(&c,
                  inverse ? "torque_at_fastener" : "published_wrench_setting",
                  got, 5e-3);
        csv_agreed(&c);
    }
    csv_close(&c);
    c = csv_open("prevailing");
    while (csv_next(&c)) {
        if (!csv_has(&c, "source", "AC 43.13-1B Table 7-2")) {
            csv_skip(&c); /* other nuts, other tables (K08) */
            continue;
        }
        struct thread t = thread_of(csv_text(&c, "thread"));
        csv_check(&c, "torque", prevailing_least(&t) / LBF_IN, 1e-9);
        csv_agreed(&c);
    }
    csv_close(&c);
    c = csv_open("faa_torque");
    while (csv_next(&c)) {
        struct thread t = thread_of(csv_text(&c, "thread"));
        struct bolt_torque b;
        assert_true(bolt_torque_faa(&t, false, &b));
        csv_check(&c, "tension_nut_install_min_lbfin", b.low / LBF_IN, 1e-9);
        csv_check(&c, "tension_nut_install_max_lbfin", b.high / LBF_IN, 1e-9);
        csv_check(&c, "tension_nut_maximum_lbfin", b.most / LBF_IN, 1e-9);
        assert_true(bolt_torque_faa(&t, true, &b));
        csv_check(&c, "shear_nut_install_min_lbfin", b.low / LBF_IN, 1e-9);
        csv_check(&c, "shear_nut_install_max_lbfin", b.high / LBF_IN, 1e-9);
        csv_check(&c, "shear_nut_maximum_lbfin", b.most / LBF_IN, 1e-9);
        csv_agreed(&c);
    }
    csv_close(&c);
    c = csv_open("preload_scatter");
    while (csv_next(&c)) {
        const char *method = csv_text(&c, "method");
        const struct tightening *w = tightening_find(method, strlen(method));
        if (!w || !csv_has(&c, "source", "Machinery")) {
            csv_skip(&c);
            continue;
        }
        csv_check(&c, "scatter_high_percent", w->plus * 100, 1e-9);
        csv_agreed(&c);
    }
    csv_close(&c);
}

static void reference_strip(void **state) {
    (void)state;
    struct csv c = csv_open("thread_strip_inch");
    while (csv_next(&c)) {
        struct thread t = thread_of(csv_text(&c, "thread"));
        struct thread_limits l;
        struct thread_shear s;
        assert_true(thread_limits(&t, &l) && thread_shear(&t, &s));
        csv_check(&c, "ext_major_min_Ds_in", l.external_major_min / IN, 1e-9);
        csv_check(&c, "ext_pitch_min_Es_in", l.external_pitch_min / IN, 3e-4);
        csv_check(&c, "int_pitch_max_En_in", l.internal_pitch_max / IN, 3e-4);
        csv_check(&c, "int_minor_max_Kn_in", l.internal_minor_max / IN, 1e-9);
        csv_check(&c, "ext_shear_area_formula_in2_per_in", s.external / IN,
                  5e-3);
        csv_check(&c, "int_shear_area_formula_in2_per_in", s.internal / IN,
                  5e-3);
        struct engagement e = {t, 1e6,
                               1e12}; /* only the bolt's thread counts */
        csv_check(&c, "Le_equal_strength_in",
                  strip_calculation(STRIP_LENGTH)->value(&e, NULL) / IN, 8e-3);
        double printed = csv_number(&c, "int_shear_area_published_in2_per_in");
        if (csv_is(&c, "thread", "7/16-20")) {
            csv_misprint(&c, s.internal / IN, 0.947, printed, 5e-3,
                         "7/16-20 stripping area 0.908, should be 0.947");
            continue;
        }
        csv_check(&c, "int_shear_area_published_in2_per_in", s.internal / IN,
                  5e-3);
        csv_agreed(&c);
    }
    csv_close(&c);
    c = csv_open("thread_strip_metric");
    while (csv_next(&c)) {
        struct thread t = thread_of(csv_text(&c, "thread"));
        struct thread_limits l;
        struct thread_shear s;
        assert_true(thread_limits(&t, &l) && thread_shear(&t, &s));
        csv_check(&c, "ext_major_min_mm", l.external_major_min / MM, 1e-4);
        csv_check(&c, "ext_pitch_min_mm", l.external_pitch_min / MM, 1e-4);
        csv_check(&c, "int_pitch_max_mm", l.internal_pitch_max / MM, 1e-4);
        csv_check(&c, "int_minor_max_mm", l.internal_minor_max / MM, 2e-4);
        csv_check(&c, "ext_shear_area_mm2_per_mm", s.external / MM, 2e-3);
        csv_check(&c, "int_shear_area_mm2_per_mm", s.internal / MM, 2e-3);
        struct engagement e = {t, grade_of("8.8", t.diameter)->tensile, 200e6};
        csv_check(&c, "Le_8_8_into_200MPa_shear_mm",
                  strip_calculation(STRIP_LENGTH)->value(&e, NULL) / MM, 1e-2);
        csv_agreed(&c);
    }
    csv_close(&c);
    c = csv_open("insert_length");
    while (csv_next(&c)) {
        double got =
            insert_length(csv_number(&c, "parent_shear_strength_MPa") * 1e6,
                          csv_number(&c, "bolt_tensile_min_MPa") * 1e6);
        if (csv_is(&c, "insert_length", "not covered"))
            assert_true(isnan(got));
        else
            csv_check(&c, "insert_length", got, 1e-12);
        csv_agreed(&c);
    }
    csv_close(&c);
}

static void reference_holes(void **state) {
    (void)state;
    const char *source, *drill;
    struct csv c = csv_open("clearance_holes");
    while (csv_next(&c)) {
        struct thread t = thread_of(csv_text(&c, "thread"));
        csv_check(&c, "fine_H12_mm",
                  hole_clearance(&t, HOLE_CLOSE, &source) / MM, 1e-9);
        csv_check(&c, "medium_H13_mm",
                  hole_clearance(&t, HOLE_MEDIUM, &source) / MM, 1e-9);
        csv_check(&c, "coarse_H14_mm",
                  hole_clearance(&t, HOLE_COARSE, &source) / MM, 1e-9);
        csv_agreed(&c);
    }
    csv_close(&c);
    c = csv_open("clearance_holes_inch");
    while (csv_next(&c)) {
        char text[24];
        snprintf(text, sizeof text, "%s UNC", csv_text(&c, "screw"));
        struct thread t = thread_of(text);
        csv_check(&c, "close_in", hole_clearance(&t, HOLE_CLOSE, &source) / IN,
                  1e-9);
        csv_check(&c, "free_in", hole_clearance(&t, HOLE_MEDIUM, &source) / IN,
                  1e-9);
        csv_agreed(&c);
    }
    csv_close(&c);
    c = csv_open("tap_drills");
    while (csv_next(&c)) {
        struct thread t = thread_of(csv_text(&c, "thread"));
        double hole = hole_tap(&t, &drill, &source);
        csv_check(&c, "drill_in", hole / IN, 1e-9);
        assert_string_equal(drill, csv_text(&c, "drill"));
        assert_true(fabs(hole_thread_share(&t, hole) * 100 -
                         csv_number(&c, "percent_thread")) <= 1);
        csv_agreed(&c);
    }
    csv_close(&c);
}

static const struct tapping_screw *screw_of(const char *name) {
    const struct tapping_screw *s = tapping_screw_find(name, strlen(name));
    if (!s)
        fail_msg("no screw '%s'", name);
    return s;
}

static void reference_screws(void **state) {
    (void)state;
    struct csv c = csv_open("tapping_screws");
    while (csv_next(&c)) {
        const struct tapping_screw *s = screw_of(csv_text(&c, "size"));
        csv_check(&c, "major_diameter_d1_max_mm", s->diameter / MM, 1e-9);
        csv_check(&c, "pitch_mm", s->pitch / MM, 1e-9);
        csv_check(&c, "minor_diameter_d2_max_mm", s->root / MM, 1e-9);
        csv_check(&c, "breaking_torque_min_Nm", s->breaking, 1e-9);
        csv_agreed(&c);
    }
    csv_close(&c);
    c = csv_open("pilot_holes");
    while (csv_next(&c)) {
        const struct tapping_screw *s = screw_of(csv_text(&c, "size"));
        const char *sheet = csv_text(&c, "sheet_thickness_mm");
        double hole;
        if (*sheet) {
            const char *dash = strchr(sheet, '-');
            double most = strtod(dash ? dash + 1 : sheet + 2, NULL);
            hole = screw_pilot_sheet(s, most * MM);
        } else {
            hole = screw_pilot_plastic(s, csv_has(&c, "material", "thermoset"));
        }
        csv_check(&c, "pilot_hole_mm", hole / MM, 1e-9);
        csv_agreed(&c);
    }
    csv_close(&c);
    c = csv_open("pilot_holes_inch");
    while (csv_next(&c)) {
        char text[16];
        snprintf(text, sizeof text, "%s AB", csv_text(&c, "size"));
        const struct tapping_screw *s = screw_of(text);
        csv_check(&c, "major_diameter_in", s->diameter / IN, 1e-9);
        csv_check(&c, "threads_per_in", IN / s->pitch, 1e-9);
        csv_check(&c, "minor_diameter_max_in", s->root / IN, 1e-9);
        csv_check(&c, "drill_heavy_metal_in", screw_pilot_inch(s, true) / IN,
                  1e-9);
        csv_check(&c, "drill_light_metal_in", screw_pilot_inch(s, false) / IN,
                  1e-9);
        csv_agreed(&c);
    }
    csv_close(&c);
}

static void reference_metals(void **state) {
    (void)state;
    struct csv c = csv_open("anodic_index");
    static const struct {
        const char *part, *name;
    } ours[] = {
        {"gold,", "gold"},
        {"silver;", "silver"},
        {"nickel, titanium", "nickel"},
        {"copper, low", "copper"},
        {"brass and bronzes", "brass"},
        {"18 % chromium", "stainless steel"},
        {"chromium plated", "tin plated"},
        {"tin-plate", "solder"},
        {"lead;", "lead"},
        {"2000 series", "aluminium 2000 series"},
        {"iron;", "steel"},
        {"wrought aluminium", "aluminium"},
        {"other cast", "cadmium plated"},
        {"hot-dip", "galvanised steel"},
        {"wrought and die-cast zinc", "zinc plated"},
        {"magnesium", "magnesium"},
    };
    while (csv_next(&c)) {
        const struct metal *m = NULL;
        for (size_t i = 0; i < sizeof ours / sizeof ours[0]; i++)
            if (strncmp(csv_text(&c, "metal_group"), ours[i].part,
                        strlen(ours[i].part)) == 0)
                m = metal_find(ours[i].name, strlen(ours[i].name));
        if (!m) {
            csv_skip(&c);
            continue;
        }
        csv_check(&c, "anodic_index_V", m->index, 1e-12);
        csv_agreed(&c);
    }
    csv_close(&c);
    c = csv_open("anodic_limits");
    while (csv_next(&c)) {
        char word[16] = "";
        sscanf(csv_text(&c, "environment"), "%15s", word);
        csv_check(&c, "max_difference_V",
                  exposure_find(word, strlen(word))->most, 1e-12);
        csv_agreed(&c);
    }
    csv_close(&c);
}

#endif

/* reference_bolt.h - published rows about threads, grades and torque. */
#ifndef REFERENCE_BOLT_H
#define REFERENCE_BOLT_H

#include "csv.h"
#include "joints.h"

#define MM 1e-3
#define IN 0.0254
#define KSI 6894757.293168361

static void reference_threads(void **state) {
    (void)state;
    struct csv c = csv_open("metric_threads");
    while (csv_next(&c)) {
        struct thread t = thread_of(csv_text(&c, "designation"));
        csv_check(&c, "pitch_mm", t.pitch / MM, 1e-9);
        assert_true(
            fabs(t.pitch_diameter / MM -
                 csv_number(&c, "pitch_diameter_d2_mm")) < 1.001e-3 &&
            fabs(t.root / MM -
                 csv_number(&c, "minor_diameter_d3_external_mm")) < 1.001e-3 &&
            fabs(t.minor / MM -
                 csv_number(&c, "minor_diameter_D1_internal_mm")) < 1.001e-3);
        csv_check(&c, "stress_area_As_formula_mm2", t.stress_area / 1e-6, 1e-4);
        csv_check(&c, "stress_area_As_published_mm2", t.stress_area / 1e-6,
                  5e-3);
        assert_true((t.series == THREAD_COARSE) ==
                    csv_is(&c, "series", "coarse"));
        csv_agreed(&c);
    }
    csv_close(&c);
    c = csv_open("unified_threads");
    while (csv_next(&c)) {
        struct thread t = thread_of(csv_text(&c, "thread"));
        csv_check(&c, "major_diameter_in", t.diameter / IN, 1e-9);
        csv_check(&c, "threads_per_in", IN / t.pitch, 1e-9);
        csv_check(&c, "pitch_diameter_basic_in", t.pitch_diameter / IN, 7e-4);
        csv_check(&c, "minor_diameter_internal_basic_in", t.minor / IN, 7e-4);
        csv_check(&c, "stress_area_formula_in2", t.stress_area / (IN * IN),
                  8e-4);
        csv_check(&c, "stress_area_published_in2", t.stress_area / (IN * IN),
                  7e-3);
        assert_non_null(strstr(t.name, csv_text(&c, "series")));
        csv_agreed(&c);
    }
    csv_close(&c);
}

/* "d <= 16 mm", "d > 16 mm", or any size. */
static double size_in(const char *range) {
    return strstr(range, "> 16") ? 20 * MM : 10 * MM;
}

static void reference_grades(void **state) {
    (void)state;
    struct csv c = csv_open("iso898_classes");
    while (csv_next(&c)) {
        const struct grade *g = grade_of(csv_text(&c, "class"),
                                         size_in(csv_text(&c, "size_range")));
        csv_check(&c, "tensile_min_MPa", g->tensile / 1e6, 1e-12);
        csv_check(&c, "yield_min_MPa", g->yield / 1e6, 1e-12);
        csv_check(&c, "proof_stress_MPa", g->proof / 1e6, 1e-12);
        csv_agreed(&c);
    }
    csv_close(&c);
    c = csv_open("stainless_classes");
    while (csv_next(&c)) {
        char name[16];
        snprintf(name, sizeof name, "A4-%s", csv_text(&c, "class"));
        const struct grade *g = grade_of(name, 10 * MM);
        csv_check(&c, "tensile_min_MPa", g->tensile / 1e6, 1e-12);
        csv_check(&c, "proof_0_2_min_MPa", g->yield / 1e6, 1e-12);
        csv_agreed(&c);
    }
    csv_close(&c);
    c = csv_open("inch_grades");
    while (csv_next(&c)) {
        const char *name = csv_text(&c, "grade");
        const char *range = csv_text(&c, "diameter_range_in");
        if (strstr(name, "pre-1970s")) {
            csv_skip(&c); /* an edition that is not offered */
            continue;
        }
        bool a574 = strstr(name, "A574") != NULL;
        double inches = strstr(range, "over 3/4") ? 1
                        : strstr(range, "over 1") ? 1.25
                        : strstr(range, "> 0.5")  ? 0.75
                                                  : 0.5;
        const struct grade *g = grade_of(a574                   ? "A574"
                                         : strstr(name, "A307") ? "A307"
                                                                : name,
                                         inches * IN);
        csv_check(&c, "tensile_min_ksi", g->tensile / KSI, 1e-9);
        csv_check(&c, "yield_min_ksi", g->yield / KSI, 1e-9);
        csv_check(&c, "tensile_min_MPa", g->tensile / 1e6, 2e-3);
        if (!isnan(csv_number(&c, "proof_stress_ksi")))
            csv_check(&c, "proof_stress_ksi", g->proof / KSI, 1e-9);
        csv_agreed(&c);
    }
    csv_close(&c);
}

static void reference_loads(void **state) {
    (void)state;
    static const struct {
        const char *file;
        double share;
    } iso[] = {{"iso898_loads", 9e-3}, {"iso898_loads_fine", 5e-3}};
    for (size_t i = 0; i < 2; i++) {
        struct csv c = csv_open(iso[i].file);
        while (csv_next(&c)) {
            struct torque_joint j = joint_of(
                csv_text(&c, "thread"), csv_text(&c, "class"), TARGET_75_PROOF);
            csv_check(&c, "proof_load_computed_N",
                      torque_value(PROOF_LOAD, &j, NULL), iso[i].share);
            csv_check(&c, "tensile_load_computed_N",
                      torque_value(TENSILE_LOAD, &j, NULL), iso[i].share);
            if (i == 0) {
                csv_check(&c, "proof_load_published_N",
                          torque_value(PROOF_LOAD, &j, NULL), iso[i].share);
                csv_check(&c, "tensile_load_published_N",
                          torque_value(TENSILE_LOAD, &j, NULL), iso[i].share);
            }
            csv_agreed(&c);
        }
        csv_close(&c);
    }
    struct csv c = csv_open("inch_loads");
    while (csv_next(&c)) {
        const char *grade = csv_text(&c, "grade");
        struct torque_joint j =
            joint_of(csv_text(&c, "thread"),
                     strstr(grade, "A574") ? "A574" : grade, TARGET_75_PROOF);
        csv_check(&c, "tensile_load_min_lbf",
                  torque_value(TENSILE_LOAD, &j, NULL) / LBF, 9e-3);
        csv_check(&c, "proof_load_lbf",
                  torque_value(PROOF_LOAD, &j, NULL) / LBF, 9e-3);
        csv_agreed(&c);
    }
    csv_close(&c);
}

/* VDI 2230 Table A1 and its fine threads: 1.5 % and 1.2 %, or half a unit of
 * the last printed place, which is coarse for the smallest screws. */
static void vdi_row(struct csv *c, double share) {
    struct torque_joint j =
        joint_of(csv_text(c, "thread"), csv_text(c, "class"), TARGET_90_YIELD);
    double mu[] = {csv_number(c, "mu_total"), csv_number(c, "mu_total")};
    double force = torque_value(PRELOAD_TARGET, &j, mu);
    double torque = torque_value(TORQUE_TARGET, &j, mu);
    csv_check(c, "FM_formula_kN", force / 1e3, 2e-3);
    csv_check(c, "MA_formula_Nm", torque, 6e-3);
    if (fabs(force / 1e3 - csv_number(c, "FM_published_kN")) > 0.051)
        csv_check(c, "FM_published_kN", force / 1e3, share);
    if (fabs(torque - csv_number(c, "MA_published_Nm")) > 0.051)
        csv_check(c, "MA_published_Nm", torque, share);
    csv_agreed(c);
}

static void reference_vdi(void **state) {
    (void)state;
    struct csv c = csv_open("vdi2230_coarse");
    while (csv_next(&c))
        vdi_row(&c, 1.5e-2);
    csv_close(&c);
    c = csv_open("vdi2230_fine");
    while (csv_next(&c))
        vdi_row(&c, 1.2e-2);
    csv_close(&c);
}

/* Set A: 90 % of Rp0.2 by the later VDI basis. Above M20 it uses Rp0.2 as
 * below, which the standard does not state there (K10): so does the test, by
 * hand. */
static void reference_stainless(void **state) {
    (void)state;
    struct csv c = csv_open("stainless_torque");
    while (csv_next(&c)) {
        if (!csv_is(&c, "source_set", "A")) {
            csv_skip(&c); /* other bases, some without a friction */
            continue;
        }
        char name[16];
        snprintf(name, sizeof name, "A2-%s", csv_text(&c, "class"));
        struct torque_joint j = joint_of("M8", name, TARGET_90_YIELD);
        bool from_table;
        j.thread = thread_of(csv_text(&c, "thread"));
        j.bearing = torque_bearing(&j.thread, &from_table);
        const struct grade *g;
        assert_true((grade_find(name, strlen(name), j.thread.diameter, &g) ==
                     GRADE_FOUND) ==
                    (j.thread.diameter < 21 * MM || csv_is(&c, "class", "50")));
        double mu = csv_number(&c, "mu_total_or_condition");
        double in[] = {mu, mu};
        double force = torque_value(PRELOAD_TARGET, &j, in);
        double torque = torque_value(TORQUE_TARGET, &j, in);
        if (fabs(force / 1e3 - csv_number(&c, "preload_kN")) > 0.1)
            csv_check(&c, "preload_kN", force / 1e3, 2e-2);
        if (fabs(torque - csv_number(&c, "torque_Nm")) > 1)
            csv_check(&c, "torque_Nm", torque, 2e-2);
        csv_agreed(&c);
    }
    csv_close(&c);
}

/* K-factor tables: 3 % or one step of the table. */
static double chart_torque(const char *thread, const char *grade, double k,
                           double proof) {
    struct torque_joint j = joint_of(thread, grade, TARGET_75_PROOF);
    struct grade old;
    if (proof > 0) {
        old = *j.grade;
        old.proof = proof;
        j.grade = &old;
    }
    double none[] = {0};
    double in[] = {k, torque_value(PRELOAD_TARGET, &j, none)};
    return torque_value(TORQUE_SHORT, &j, in) / LBF_FT;
}

static void reference_sae_torque(void **state) {
    (void)state;
    struct csv c = csv_open("sae_torque");
    while (csv_next(&c)) {
        const char *thread = csv_text(&c, "thread");
        const char *grade = csv_text(&c, "grade");
        double printed = csv_number(&c, "torque_published_lbfft");
        bool dry = strncmp(csv_text(&c, "condition"), "dry", 3) == 0;
        if (strstr(thread, "fine and coarse") || strstr(grade, "1-2") ||
            strstr(grade, "6-7")) {
            csv_skip(&c); /* no one thread or grade */
            continue;
        }
        double got = chart_torque(thread, grade, dry ? 0.20 : 0.15, 0);
        if (csv_has(&c, "note", "78 ksi")) {
            /* An older edition: 115 ksi tensile, 78 ksi proof (K04). */
            assert_true(!near(got, printed, 5e-2));
            got = chart_torque(thread, grade, 0.20, 78 * KSI);
        }
        if (strcmp(thread, "3/4-16") == 0 && strcmp(grade, "SAE 5") == 0 &&
            printed == 395) {
            csv_misprint(&c, got, 297, printed, 1e-2,
                         "3/4-16 grade 5 dry 395 lbf ft, should be 297");
            continue;
        }
        double step = printed < 20 ? 1 : printed < 100 ? 2 : 10;
        if (fabs(got - printed) > step)
            csv_check(&c, "torque_published_lbfft", got, 3.1e-2);
        csv_agreed(&c);
    }
    csv_close(&c);
}

static double row_number(const struct csv *c, const char *column, int index) {
    const char *s = csv_text(c, column);
    while (index-- > 0) {
        s = strchr(s, ';');
        if (!s)
            fail_msg("%s row %d: no second figure", c->name, c->row);
        s++;
    }
    s += strcspn(s, "0123456789");
    return strtod(s, NULL);
}

#endif

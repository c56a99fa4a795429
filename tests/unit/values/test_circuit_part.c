/* test_circuit_part.c - how the current of a part moves with its figures,
 * against the law at figures a little more and a little less. */
#include "values/circuit_part.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static double current_of(const struct circuit_piece *p, const double *x,
                         double u) {
    double slope;
    struct circuit_part_law law = circuit_part_law(p, x);
    return circuit_law_current(&law, u, &slope);
}

static void check(const struct circuit_piece *p, const double *figure,
                  double u) {
    struct circuit_part_law law = circuit_part_law(p, figure);
    for (size_t k = 0; k < p->figure_count; k++) {
        double x[PART_FIGURES] = {figure[0], figure[1], figure[2], figure[3]};
        double h = 1e-5 * figure[k];
        x[k] = figure[k] + h;
        double more = current_of(p, x, u);
        x[k] = figure[k] - h;
        double by = (more - current_of(p, x, u)) / (2 * h);
        double got = circuit_part_moves(p, figure, k, u, &law);
        double slack = 1e-7 * (fabs(by) + fabs(more / figure[k]));
        if (p->law == LAW_LIMITED) { /* as if it moved a little everywhere */
            double least = LAW_LIMIT_SLOPE / figure[1];
            slack += least * (k == 1 ? fabs(u + figure[0]) / figure[1] : 1);
            assert_true(k == 1 ? got * (u + figure[0]) <= 0 : got > 0);
        }
        assert_true(fabs(got - by) <= slack);
    }
}

static void test_moves(void **state) {
    (void)state;
    static const struct {
        enum circuit_law law;
        size_t count;
        double figure[PART_FIGURES];
    } parts[] = {{LAW_RESISTANCE, 1, {0.02, 0, 0}},
                 {LAW_RESISTANCE, 2, {7.6, 13.2, 0}},
                 {LAW_SUPPLY, 2, {12.6, 0.008, 0}},
                 {LAW_LAMP, 2, {4.6, 13.2, 0}},
                 {LAW_CURRENT, 2, {5, 13.2, 0}},
                 {LAW_POWER, 2, {5, 13.2, 0}},
                 {LAW_LIMITED, 3, {12.6, 0.008, 20}},
                 {LAW_LIMITED, 3, {12.6, 0.8, 20}},
                 {LAW_DIODE, 0, {0, 0, 0}}};
    static const double volts[] = {-13, -0.4, 0.4, 0.7, 13};
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        for (size_t v = 0; v < sizeof volts / sizeof volts[0]; v++) {
            const struct circuit_piece p = {.law = parts[i].law,
                                            .figure_count = parts[i].count};
            check(&p, parts[i].figure, volts[v]);
        }
}

/* 3 m of 3.3 mohm/m; 0.2 V is 17 A, 8 V melts it. */
static void test_wire_moves(void **state) {
    (void)state;
    static const double figure[PART_FIGURES] = {3, 3.3e-3, 313.15};
    struct wire_run run = {
        .ampacity = {
            .rated = 378.15, .reference = 303.15, .amp = 55, .bundle = 0.7}};
    const struct circuit_piece p = {
        .law = LAW_WIRE, .figure_count = 3, .run = &run};
    for (int m = 0; m < 2; m++) {
        run.ampacity.use.material =
            m == 0 ? MATERIAL_COPPER : MATERIAL_ALUMINIUM;
        struct circuit_part_law law = circuit_part_law(&p, figure);
        double melted = 8 / law.figure[2];
        assert_true(fabs(current_of(&p, figure, 8) - melted) < 1e-9 * melted);
        check(&p, figure, 0.2);
        check(&p, figure, -0.2);
        check(&p, figure, 8);
    }
}

/* 2 m of 33.6 mm2 for 12 s: what the heat of that time alone makes it, by hand;
 * for a day: steady. */
static void test_cranked_wire_moves(void **state) {
    (void)state;
    static const struct wire_size size = {.area = 33.6e-6};
    struct wire_run run = {.ampacity = {.use = {.size = &size},
                                        .rated = 378.15,
                                        .reference = 303.15,
                                        .amp = 210,
                                        .bundle = 1}};
    struct circuit_piece p = {
        .law = LAW_WIRE, .figure_count = WIRE_CRANKED, .run = &run};
    double figure[PART_FIGURES] = {2, 5.2e-4, 313.15, 12};
    struct circuit_part_law law = circuit_part_law(&p, figure);
    double cs = 226e6 * 33.6e-6;
    assert_true(fabs(law.figure[1] * cs * cs / 12 - 1) < 1e-9);
    check(&p, figure, 0.2);
    check(&p, figure, -0.2);
    /* 105 A have warmed it before: b + T = (b + Ta)/(1 - k I^2), by hand, k =
     * (105 - 30) / ((105 + 234.5) 210^2); what the start adds is the same. */
    p.warm = 105;
    struct circuit_part_law warm = circuit_part_law(&p, figure);
    double left = 1 - 75 / (339.5 * 210 * 210) * 105 * 105;
    assert_true(fabs(warm.figure[0] * left / law.figure[0] - 1) < 1e-3);
    assert_true(warm.figure[1] == law.figure[1]);
    double before = (40 + 234.5) / left - 234.5 + 273.15;
    assert_true(fabs(circuit_part_before(&p, figure) - before) < 0.1);
    check(&p, figure, 0.2);
    /* Melted by what lasts alone. */
    p.warm = 1000;
    warm = circuit_part_law(&p, figure);
    assert_true(warm.figure[0] == warm.figure[2]);
    p.warm = 0;
    figure[3] = 86400;
    double long_after = circuit_part_law(&p, figure).figure[1];
    check(&p, figure, 0.2);
    p.figure_count = 3;
    assert_true(circuit_part_law(&p, figure).figure[1] == long_after);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_moves), cmocka_unit_test(test_wire_moves),
        cmocka_unit_test(test_cranked_wire_moves)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* test_grade.c - grades by name and size; nuts. The stresses are compared in
 * test_reference.c. */
#include "joints.h"

static void assert_grade(const char *name, double mm, enum grade_found wanted,
                         const char *found) {
    const struct grade *g = NULL;
    char *copy = exact(name);
    enum grade_found f = grade_find(copy, strlen(name), mm * 1e-3, &g);
    free(copy);
    if (f != wanted)
        fail_msg("'%s' at %g mm: %d", name, mm, (int)f);
    if (found)
        assert_string_equal(g->name, found);
    else
        assert_null(g);
}

static void test_names(void **state) {
    (void)state;
    assert_grade("8.8", 8, GRADE_FOUND, "8.8");
    assert_grade("class 8.8", 8, GRADE_FOUND, "8.8");
    assert_grade("property class 8.8", 8, GRADE_FOUND, "8.8");
    assert_grade("SAE 5", 12.7, GRADE_FOUND, "SAE 5");
    assert_grade("grade 5", 12.7, GRADE_FOUND, "SAE 5");
    assert_grade("5", 12.7, GRADE_FOUND, "SAE 5");
    assert_grade("SAE grade 5", 12.7, GRADE_FOUND, "SAE 5");
    assert_grade("SAE J429 grade 5", 12.7, GRADE_FOUND, "SAE 5");
    assert_grade("SAE 8.2", 12.7, GRADE_FOUND, "SAE 8.2");
    assert_grade("A2-70", 8, GRADE_FOUND, "A2-70");
    assert_grade("a4-80", 8, GRADE_FOUND, "A4-80");
    assert_grade("ASTM A574", 8, GRADE_FOUND, "A574");
    assert_grade("8.9", 8, GRADE_UNREADABLE, NULL);
    assert_grade("grade 8.8", 8, GRADE_UNREADABLE, NULL);
    assert_grade("grade", 8, GRADE_UNREADABLE, NULL);
    assert_grade("grade ", 8, GRADE_UNREADABLE, NULL);
    assert_grade("SAE", 8, GRADE_UNREADABLE, NULL);
    assert_grade("class", 8, GRADE_UNREADABLE, NULL);
    assert_grade("", 8, GRADE_UNREADABLE, NULL);
    for (size_t i = 0; grade_at(i); i++) {
        const struct grade *g = grade_at(i);
        assert_grade(g->name, (g->over + g->upto) / 2 * 1e3, GRADE_FOUND,
                     g->name);
        assert_true(g->tensile > g->yield && !(g->proof > g->yield));
    }
}

/* The class that changes at 16 mm, grade 2 that falls above 3/4 in, and sizes
 * for which nothing is stated (K10: no class-70 answer above M20). */
static void test_sizes(void **state) {
    (void)state;
    assert_near(grade_of("8.8", 16e-3)->proof, 580e6, 1e-12);
    assert_near(grade_of("8.8", 18e-3)->proof, 600e6, 1e-12);
    assert_near(grade_of("SAE 2", 0.75 * 0.0254)->proof, 55 * 6894757.2931684,
                1e-9);
    assert_near(grade_of("SAE 2", 0.875 * 0.0254)->proof, 33 * 6894757.2931684,
                1e-9);
    assert_near(grade_of("SAE 5", 25.4e-3)->proof, 85 * 6894757.2931684, 1e-9);
    assert_near(grade_of("SAE 5", 1.125 * 0.0254)->proof, 74 * 6894757.2931684,
                1e-9);
    assert_near(grade_of("A574", 12.7e-3)->proof, 140 * 6894757.2931684, 1e-9);
    assert_near(grade_of("A574", 0.625 * 0.0254)->proof, 135 * 6894757.2931684,
                1e-9);
    assert_grade("A2-70", 24, GRADE_NO_SIZE, "A2-70");
    assert_grade("A2-70", 20, GRADE_FOUND, "A2-70");
    assert_grade("SAE 5", 4.826, GRADE_NO_SIZE, "SAE 5"); /* #10 */
    assert_grade("SAE 5", 6.35, GRADE_FOUND, "SAE 5");
    assert_grade("4.8", 20, GRADE_NO_SIZE, "4.8");
    assert_grade("8.8", 42, GRADE_NO_SIZE, "8.8");
    /* Stainless has no proof stress: Rp0.2 stands for it. */
    const struct grade *a = grade_of("A2-70", 8e-3);
    assert_true(a->stainless && a->proof == a->yield);
    assert_true(isnan(grade_of("A307", 12.7e-3)->proof));
}

static void test_nuts(void **state) {
    (void)state;
    const char *source;
    assert_near(nut_proof("8", 1, &source), 800e6, 1e-12);
    assert_near(nut_proof("class 10", 8, &source), 1040e6, 1e-12);
    assert_near(nut_proof("SAE 8", 5, &source), 150 * 6894757.2931684, 1e-9);
    assert_near(nut_proof("grade 5", 7, &source), 120 * 6894757.2931684, 1e-9);
    assert_near(nut_proof("A4-80", 5, &source), 800e6, 1e-12);
    assert_non_null(source);
    assert_true(isnan(nut_proof("11", 2, &source)));
    assert_null(source);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_names),
        cmocka_unit_test(test_sizes),
        cmocka_unit_test(test_nuts),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

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

static const struct nut *nut_of(const char *name, bool unified) {
    return nut_find(name, strlen(name), unified);
}

static void test_nuts(void **state) {
    (void)state;
    assert_near(nut_of("8", false)->stress, 800e6, 1e-12);
    assert_near(nut_of("class 10", false)->stress, 1040e6, 1e-12);
    assert_near(nut_of("SAE 8", true)->stress, 150 * 6894757.2931684, 1e-9);
    assert_near(nut_of("grade 5", true)->stress, 120 * 6894757.2931684, 1e-9);
    assert_near(nut_of("A4-80", false)->stress, 800e6, 1e-12);
    assert_ptr_equal(nut_of("A4-80", true), nut_of("A4-80", false));
    assert_non_null(nut_of("8", false)->source);
    assert_null(nut_of("11", false));
    /* One number, two nuts; and none on the other's threads. */
    assert_ptr_equal(nut_of("8", true), nut_of("SAE 8", true));
    assert_null(nut_of("SAE 8", false));
    assert_null(nut_of("class 8", true));
}

/* The pairs of ISO 898-2 Table 1 and SAE J995, from memory. */
static void test_nuts_of_bolts(void **state) {
    (void)state;
    static const struct {
        const char *bolt, *nut, *next; /* the least nut for it; one less */
        double mm;
    } pairs[] = {
        {"4.8", "5", NULL, 10},     {"8.8", "8", "6", 10},
        {"8.8", "8", "6", 20},      {"9.8", "9", "8", 10},
        {"10.9", "10", "9", 10},    {"12.9", "12", "10", 10},
        {"SAE 5", "5", "2", 12.7},  {"SAE 8", "8", "5", 12.7},
        {"SAE 2", "2", NULL, 12.7}, {"A2-70", "A4-70", "A2-50", 10},
    };
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++) {
        const struct grade *g = grade_of(pairs[i].bolt, pairs[i].mm / 1000);
        bool unified = strncmp(pairs[i].bolt, "SAE", 3) == 0;
        assert_false(nut_is_weaker(nut_of(pairs[i].nut, unified), g));
        if (pairs[i].next != NULL)
            assert_true(nut_is_weaker(nut_of(pairs[i].next, unified), g));
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_names),
        cmocka_unit_test(test_sizes),
        cmocka_unit_test(test_nuts),
        cmocka_unit_test(test_nuts_of_bolts),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

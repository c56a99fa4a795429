/* test_galvanic.c - two metals in one joint. */
#include "calc/galvanic.h"

#include "check.h"

static struct galvanic_pair pair(const char *a, const char *b, const char *e) {
    return galvanic_compare(metal_find(a, strlen(a)), metal_find(b, strlen(b)),
                            exposure_find(e, strlen(e)));
}

/* A ground joint outdoors: tinned lug on bare steel 0.25 V is too far for harsh
 * places; copper on aluminium is far too far; like on like is fine. */
static void test_pairs(void **state) {
    (void)state;
    struct galvanic_pair p = pair("tin plated", "steel", "harsh");
    assert_near(p.difference, 0.25, 1e-9);
    assert_false(p.allowed);
    assert_true(p.same_group);
    assert_string_equal(p.wastes->name, "steel");
    assert_true(pair("tin plated", "steel", "normal").allowed);
    p = pair("aluminium", "copper", "controlled");
    assert_near(p.difference, 0.55, 1e-9);
    assert_false(p.allowed);
    assert_string_equal(p.wastes->name, "aluminium");
    assert_false(p.same_group);
    p = pair("copper", "aluminium", "harsh");
    assert_string_equal(p.wastes->name, "aluminium");
    p = pair("brass", "bronze", "harsh");
    assert_true(p.allowed && p.wastes == NULL && p.difference == 0);
    assert_false(p.same_group); /* neither is listed */
    p = pair("stainless steel", "brass", "harsh");
    assert_true(p.allowed);
    assert_string_equal(p.wastes->name, "stainless steel");
}

static void test_tables(void **state) {
    (void)state;
    double last = 0;
    size_t n = 0;
    for (; metal_at(n); n++) {
        const struct metal *m = metal_at(n);
        assert_ptr_equal(metal_find(m->name, strlen(m->name)), m);
        assert_true(m->index >= last);
        assert_true(m->verified == (m->index <= 0.75));
        last = m->index;
    }
    assert_int_equal(n, 23);
    for (n = 0; exposure_at(n); n++)
        assert_non_null(exposure_at(n)->source);
    assert_int_equal(n, 3);
    assert_null(metal_find("wood", 4));
    assert_ptr_equal(metal_find("ZINC", 4), metal_find("zinc", 4));
    assert_ptr_equal(metal_find("GALVANISED  STEEL ", 18),
                     metal_find("galvanised-steel", 16));
    assert_null(metal_find("galvanisedsteel", 15));
    assert_null(metal_find("zinc.", 5));
    assert_null(metal_find("", 0));
    static const char *const blank[] = {"", "   ", " zin", "zinc ", "-"};
    for (size_t i = 0; i < sizeof blank / sizeof blank[0]; i++) {
        char *copy = exact(blank[i]);
        const struct metal *m = metal_find(copy, strlen(blank[i]));
        assert_true((m != NULL) == (i == 3));
        free(copy);
    }
    assert_null(exposure_find("moon", 4));
    assert_non_null(metal_source());
    assert_true(exposure_find("harsh", 5)->most == 0.15);
    assert_true(exposure_find("normal", 6)->most == 0.25);
    assert_true(exposure_find("controlled", 10)->most == 0.5);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_pairs),
        cmocka_unit_test(test_tables),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

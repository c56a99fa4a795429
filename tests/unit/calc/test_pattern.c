/* test_pattern.c - tightening orders. */
#include "calc/pattern.h"

#include "check.h"

static void assert_order(enum pattern p, int count, const int *wanted) {
    int order[PATTERN_MOST];
    assert_true(pattern_order(p, count, order));
    for (int i = 0; i < count; i++)
        if (order[i] != wanted[i])
            fail_msg("%s of %d, place %d: %d, wanted %d", pattern_name(p),
                     count, i + 1, order[i], wanted[i]);
}

/* Wheel-nut orders of the trade: common practice, no source. */
static void test_known(void **state) {
    (void)state;
    assert_order(PATTERN_STAR, 3, (int[]){1, 2, 3});
    assert_order(PATTERN_STAR, 4, (int[]){1, 3, 2, 4});
    assert_order(PATTERN_STAR, 5, (int[]){1, 3, 5, 2, 4});
    assert_order(PATTERN_STAR, 6, (int[]){1, 4, 2, 5, 3, 6});
    assert_order(PATTERN_STAR, 8, (int[]){1, 5, 3, 7, 2, 6, 4, 8});
    assert_order(PATTERN_STAR, 10, (int[]){1, 6, 3, 8, 2, 7, 4, 9, 5, 10});
    assert_order(PATTERN_SPIRAL, 5, (int[]){3, 2, 4, 1, 5});
    assert_order(PATTERN_SPIRAL, 6, (int[]){3, 4, 2, 5, 1, 6});
    assert_order(PATTERN_SPIRAL, 3, (int[]){2, 1, 3});
}

/* Every count: each place once; in a star, neighbours never follow each other
 * from five on; in a spiral, the distance from the middle never shrinks. */
static void test_all(void **state) {
    (void)state;
    for (int count = PATTERN_LEAST; count <= PATTERN_MOST; count++) {
        for (int p = 0; p < PATTERNS; p++) {
            int order[PATTERN_MOST], seen[PATTERN_MOST + 1] = {0};
            assert_true(pattern_order((enum pattern)p, count, order));
            for (int i = 0; i < count; i++) {
                assert_in_range(order[i], 1, count);
                assert_int_equal(seen[order[i]]++, 0);
            }
            for (int i = 1; i < count; i++) {
                int apart = abs(order[i] - order[i - 1]);
                if (p == PATTERN_STAR && count >= 7 && i % 2 == 1)
                    assert_true(apart >= count / 2 - 2 &&
                                apart <= count - (count / 2 - 2));
                double was = fabs(order[i - 1] - (count + 1) / 2.0);
                double is = fabs(order[i] - (count + 1) / 2.0);
                if (p == PATTERN_SPIRAL)
                    assert_true(is >= was - 1e-9);
            }
        }
    }
    int order[PATTERN_MOST];
    assert_false(pattern_order(PATTERN_STAR, 2, order));
    assert_false(pattern_order(PATTERN_SPIRAL, 17, order));
}

static void test_names(void **state) {
    (void)state;
    enum pattern p = PATTERNS;
    assert_true(pattern_find("star", 4, &p));
    assert_int_equal(p, PATTERN_STAR);
    assert_true(pattern_find("spiral", 6, &p));
    assert_int_equal(p, PATTERN_SPIRAL);
    assert_false(pattern_find("zigzag", 6, &p));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_known),
        cmocka_unit_test(test_all),
        cmocka_unit_test(test_names),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

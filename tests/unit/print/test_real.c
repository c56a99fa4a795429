/* test_real.c - numbers in a PDF: the choke point. */
#include "base/arena.h"
#include "print/real.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>

#include <cmocka.h>

static void assert_put(double x, int decimals, const char *wanted) {
    struct arena *a = arena_new();
    struct buf out = buf_in(a);
    assert_true(real_put(&out, x, decimals));
    assert_string_equal(buf_cstr(&out), wanted);
    arena_free(a);
}

static void test_shortest_decimals(void **state) {
    (void)state;
    assert_put(0, 3, " 0");
    assert_put(-0.0, 3, " 0");
    assert_put(0.0004, 3, " 0");
    assert_put(-0.0004, 3, " 0");
    assert_put(0.5, 3, " .5");
    assert_put(-0.5, 3, " -.5");
    assert_put(0.05, 3, " .05");
    assert_put(12, 3, " 12");
    assert_put(120, 0, " 120");
    assert_put(12.3456, 3, " 12.346");
    assert_put(-12.3, 3, " -12.3");
    assert_put(550.29296875, 5, " 550.29297");
    assert_put(32767, 5, " 32767");
    assert_put(-32767, 0, " -32767");
    assert_put(-18.7, 0, " -19");
}

static void test_every_number_reads_back(void **state) {
    (void)state;
    struct arena *a = arena_new();
    unsigned long seed = 7;
    for (int i = 0; i < 20000; i++) {
        seed = seed * 6364136223846793005u + 1442695040888963407u;
        double x = ((double)(seed >> 32) / 4294967296.0 - 0.5) * 65534;
        int decimals = i % 6;
        struct buf out = buf_in(a);
        assert_true(real_put(&out, x, decimals));
        double back = strtod(out.bytes, NULL);
        assert_true(fabs(back - x) <= 0.5 * pow(10, -decimals) + 1e-9);
    }
    arena_free(a);
}

static void test_nothing_else_is_written(void **state) {
    static const double bad[] = {NAN,      -NAN,     INFINITY, -INFINITY,
                                 32767.01, -32768.0, 1e300,    -1e300};
    (void)state;
    struct arena *a = arena_new();
    struct buf out = buf_in(a);
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        assert_false(real_fits(bad[i]));
        for (int decimals = 0; decimals <= 5; decimals++)
            assert_false(real_put(&out, bad[i], decimals));
    }
    assert_int_equal(out.len, 0);
    arena_free(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_shortest_decimals),
        cmocka_unit_test(test_every_number_reads_back),
        cmocka_unit_test(test_nothing_else_is_written),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

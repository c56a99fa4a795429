/* test_example.c - the example program of docs/ compiles, and prints what it
 * says. */
int example_main(void);
#define main example_main
#include "../../../docs/wire_example.c"
#undef main

#include "check.h"

#include <unistd.h>

static void test_example(void **state) {
    (void)state;
    char path[] = "/tmp/bayleaf-example-XXXXXX", text[1000] = "";
    int fd = mkstemp(path), out = dup(STDOUT_FILENO);
    assert_true(fd >= 0 && out >= 0);
    fflush(stdout);
    dup2(fd, STDOUT_FILENO);
    int status = example_main();
    fflush(stdout);
    dup2(out, STDOUT_FILENO);
    assert_true(pread(fd, text, sizeof text - 1, 0) > 0);
    close(fd);
    unlink(path);
    assert_int_equal(status, 0);
    /* By hand: 10 AWG, 60 sqrt(55/75) = 51.3 A; 30 A through 19.3 mohm hot. */
    assert_string_equal(text, "18 AWG: carries 17.1 A, loses 51.5 %: no\n"
                              "16 AWG: carries 21.4 A, loses 23.9 %: no\n"
                              "14 AWG: carries 29.9 A, loses 12.3 %: no\n"
                              "12 AWG: carries 38.5 A, loses 7.2 %: no\n"
                              "10 AWG: carries 51.3 A, loses 4.3 %: no\n"
                              "8 AWG: carries 68.5 A, loses 2.7 %\n");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_example),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* test_command.c - words of the command line that may be shown again. */
#include "command/command.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static void test_plain_words(void **state) {
    (void)state;
    static const char *const plain[] = {"",     "lamp", "größe",
                                        "5 µΩ", "a b",  "\xEF\xBF\xBD"};
    for (size_t i = 0; i < sizeof plain / sizeof plain[0]; i++)
        assert_true(command_is_plain(plain[i]));
    static const char *const refused[] = {
        "\x1B[31m",      /* escape */
        "a\nb",          /* a line of its own */
        "\xC2\x9B",      /* an escape of one byte */
        "\x7F",          /* delete */
        "\xE2\x80\xAEx", /* turns the direction */
        "\xE2\x80\x8B",  /* not to be seen */
        "\xFF",          /* no UTF-8 */
        "caf\xE9",       /* Latin-1 */
    };
    for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++)
        assert_false(command_is_plain(refused[i]));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_plain_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

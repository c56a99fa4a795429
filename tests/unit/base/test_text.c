/* test_text.c - lists of words, and words that are near. */
#include "base/arena.h"
#include "base/text.h"

#include <setjmp.h>
#include <stdarg.h>
#include <string.h>

#include <cmocka.h>

static void expect_parts(const char *list, const char *const *wanted,
                         size_t count) {
    struct text rest = text_of(list), part;
    size_t n = 0;
    while (text_next_part(&rest, ',', &part)) {
        assert_true(n < count);
        if (!text_is(part, wanted[n]))
            fail_msg("'%s': part %zu is '%.*s'", list, n, (int)part.len,
                     part.start);
        n++;
    }
    assert_int_equal(n, count);
}

static void test_parts(void **state) {
    (void)state;
    expect_parts("one", (const char *const[]){"one"}, 1);
    expect_parts(" one , two\n", (const char *const[]){"one", "two"}, 2);
    expect_parts("a,,b", (const char *const[]){"a", "", "b"}, 3);
    expect_parts("a,", (const char *const[]){"a", ""}, 2);
    expect_parts("", (const char *const[]){""}, 1);
    expect_parts(NULL, NULL, 0);
}

static void test_nearest(void **state) {
    (void)state;
    static const char *const words[] = {"drop", "length", "lamps.current"};
    static const char *const rows[][2] = {
        {"drpo", "drop"},
        {"lenght", "length"},
        {"dorp", "drop"},
        {"rod", NULL},
        {"xyz", NULL},
        {"", NULL},
        {"lamps.curent", "lamps.current"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct nearest n = nearest_to(text_of(rows[i][0]));
        for (size_t k = 0; k < 3; k++)
            nearest_offer(&n, text_of(words[k]));
        bool found = n.best != NULL;
        if (found != (rows[i][1] != NULL) ||
            (found && !text_is((struct text){n.best, n.best_len}, rows[i][1])))
            fail_msg("'%s'", rows[i][0]);
    }
}

static void test_squeezed(void **state) {
    (void)state;
    struct arena *a = arena_new();
    assert_true(text_is(text_squeezed(a, text_of("a \n  b")), "a b"));
    arena_free(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_parts),
        cmocka_unit_test(test_nearest),
        cmocka_unit_test(test_squeezed),
    };
    return cmocka_run_group_tests_name("base/text", tests, NULL, NULL);
}

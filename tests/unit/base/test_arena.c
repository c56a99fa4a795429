/* test_arena.c - lists that grow, beside what is allocated around them. */
#include "base/arena.h"

#include <setjmp.h>
#include <stdarg.h>
#include <string.h>

#include <cmocka.h>

/* Two lists that grow by turns, and one that grows alone, with other pieces
 * between: each keeps its own numbers, and what is new is zero. */
static void test_lists_grow_beside_each_other(void **state) {
    enum { LISTS = 3, ROUNDS = 2000 };
    (void)state;
    struct arena *a = arena_new();
    int *list[LISTS] = {NULL};
    size_t count[LISTS] = {0}, room[LISTS] = {0};
    unsigned chance = 1;
    for (int round = 0; round < ROUNDS; round++) {
        chance = chance * 1103515245u + 12345u;
        size_t k = (chance >> 16) % LISTS;
        if (count[k] == room[k]) {
            size_t more = room[k] + 1 + (chance >> 20) % 7;
            list[k] = arena_grow(a, list[k], room[k], more, sizeof(int));
            for (size_t i = count[k]; i < more; i++)
                assert_int_equal(list[k][i], 0);
            room[k] = more;
        }
        list[k][count[k]] = (int)(k * ROUNDS + count[k]);
        count[k]++;
        if ((chance >> 24) % 5 == 0)
            memset(arena_alloc(a, 1 + (chance >> 18) % 40, 1), 0xFF, 1);
    }
    for (size_t k = 0; k < LISTS; k++)
        for (size_t i = 0; i < count[k]; i++)
            assert_int_equal(list[k][i], k * ROUNDS + i);
    arena_free(a);
}

/* A larger list that was copied out of a shorter one does not run into what
 * the owner of the shorter one adds. */
static void test_the_old_list_stays_readable(void **state) {
    (void)state;
    struct arena *a = arena_new();
    int *first = arena_alloc(a, 4, sizeof *first);
    for (int i = 0; i < 4; i++)
        first[i] = i;
    int *longer = arena_grow(a, first, 4, 8, sizeof *longer);
    longer[4] = 44;
    int *other = arena_grow(a, first, 4, 8, sizeof *other);
    other[4] = 55;
    assert_int_equal(longer[4], 44);
    for (int i = 0; i < 4; i++) {
        assert_int_equal(longer[i], i);
        assert_int_equal(other[i], i);
    }
    arena_free(a);
}

static void test_a_copy_is_apart(void **state) {
    (void)state;
    struct arena *a = arena_new();
    int *list = arena_alloc(a, 3, sizeof *list);
    list[2] = 7;
    int *same = arena_same(a, list, 3, sizeof *same);
    same[2] = 8;
    assert_int_equal(list[2], 7);
    assert_non_null(arena_same(a, NULL, 0, sizeof *same));
    arena_free(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_lists_grow_beside_each_other),
        cmocka_unit_test(test_the_old_list_stays_readable),
        cmocka_unit_test(test_a_copy_is_apart),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* test_hand.c - a second pair of hands does all it is given, in order. */
#include "base/hand.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdint.h>

#include <cmocka.h>

enum { PIECES = 3 * HAND_ROOM + 1 };

static size_t done[PIECES], count; /* in which order; of one thread at a time */

static void note(void *piece) {
    done[count++] = (size_t)(uintptr_t)piece;
}

static void test_all_in_order(void **state) {
    (void)state;
    struct hand *h = hand_new();
    assert_non_null(h);
    hand_wait(h, 0);
    for (int round = 0; round < 200; round++) {
        size_t last = 0;
        count = 0;
        for (size_t i = 0; i < PIECES; i++) {
            size_t piece = hand_give(h, note, (void *)(uintptr_t)i);
            assert_true(last == 0 || piece == last + 1);
            last = piece;
        }
        hand_wait(h, last);
        hand_wait(h, last);
        assert_int_equal(count, PIECES);
        for (size_t i = 0; i < PIECES; i++)
            assert_int_equal(done[i], i);
    }
    hand_free(h);
}

/* Waiting for one piece is no waiting for those behind it. */
static void wait_for(void *other) {
    hand_wait(other, 1);
}

static void test_no_more_than_wanted(void **state) {
    (void)state;
    struct hand *h = hand_new(), *slow = hand_new();
    count = 0;
    size_t first = hand_give(h, note, (void *)7);
    size_t held = hand_give(h, wait_for, slow); /* till slow has done one */
    hand_wait(h, first);
    assert_int_equal(count, 1);
    assert_int_equal(done[0], 7);
    hand_wait(slow, hand_give(slow, note, (void *)8));
    hand_wait(h, held);
    hand_free(h);
    hand_free(slow);
    hand_free(NULL);
    assert_true(hand_processors() >= 1);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_all_in_order),
        cmocka_unit_test(test_no_more_than_wanted),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

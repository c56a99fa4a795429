/* test_hand.c - a second pair of hands does all it is given, once. */
#include "base/hand.h"

#include <sched.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdatomic.h>
#include <stdbool.h>
#include <stdint.h>

#include <cmocka.h>

enum { PIECES = 3 * HAND_ROOM + 1 };

static atomic_size_t done[PIECES]; /* how often */

static void note(void *piece) {
    atomic_fetch_add((atomic_size_t *)piece, 1);
}

static void test_each_once(void **state) {
    (void)state;
    struct hand *h = hand_new();
    assert_non_null(h);
    hand_wait(h, 0);
    for (size_t round = 1; round <= 300; round++) {
        size_t last = 0, half = 0;
        for (size_t i = 0; i < PIECES; i++) {
            size_t piece = hand_give(h, note, &done[i]);
            assert_true(last == 0 || piece == last + 1);
            last = piece;
            half = i == PIECES / 2 ? piece : half;
        }
        hand_wait(h, half);
        for (size_t i = 0; i <= PIECES / 2; i++)
            assert_int_equal(atomic_load(&done[i]), round);
        hand_wait(h, last);
        hand_wait(h, last);
        for (size_t i = 0; i < PIECES; i++)
            assert_int_equal(atomic_load(&done[i]), round);
    }
    hand_free(h);
}

/* Waiting for one piece is no waiting for those behind it. */
static void wait_for_one(void *other) {
    hand_wait(other, 1);
}

static void test_no_more_than_wanted(void **state) {
    (void)state;
    static atomic_size_t first_done, slow_done;
    struct hand *h = hand_new(), *slow = hand_new();
    size_t first = hand_give(h, note, &first_done);
    size_t held = hand_give(h, wait_for_one, slow);
    hand_wait(h, first);
    assert_int_equal(atomic_load(&first_done), 1);
    hand_wait(slow, hand_give(slow, note, &slow_done));
    hand_wait(h, held);
    assert_int_equal(atomic_load(&slow_done), 1);
    hand_free(h);
    hand_free(slow);
    hand_free(NULL);
    assert_true(hand_processors() >= 1);
}

/* The hand is held by its first piece: the owner does the second himself, and
 * that lets the first one go. */
static void linger(void *go) {
    while (!atomic_load((atomic_bool *)go))
        sched_yield();
}

static void let_go(void *go) {
    atomic_store((atomic_bool *)go, true);
}

static void test_owner_helps(void **state) {
    (void)state;
    static atomic_bool go;
    struct hand *h = hand_new();
    hand_give(h, linger, &go);
    hand_wait(h, hand_give(h, let_go, &go));
    assert_true(atomic_load(&go));
    hand_free(h);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_each_once),
        cmocka_unit_test(test_no_more_than_wanted),
        cmocka_unit_test(test_owner_helps),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* test_subset.c - subsets kept for the next document. */
#include "print/subset.h"

#include "base/arena.h"
#include "layout/face.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include <zlib.h>

static void assert_same(const struct subset *a, const struct subset *b) {
    assert_int_equal(a->packed_len, b->packed_len);
    assert_memory_equal(a->packed, b->packed, a->packed_len);
    assert_int_equal(a->len, b->len);
    assert_string_equal(a->name, b->name);
    for (unsigned g = 0; g < 300; g++)
        assert_int_equal(subset_glyph(a, (uint16_t)g),
                         subset_glyph(b, (uint16_t)g));
}

/* One that was kept is the one that would be made, however many came between.
 */
static void test_kept_is_the_same(void **state) {
    (void)state;
    struct arena *a = arena_new();
    struct subset_kept *kept = subset_kept_new();
    const enum face name[] = {FACE_REGULAR, FACE_BOLD};
    for (int round = 0; round < 3; round++)
        for (uint16_t more = 0; more < 40; more++)
            for (int f = 0; f < 2; f++) {
                const uint16_t glyph[] = {0, 5, 40, 90, (uint16_t)(100 + more)};
                const struct subset *one =
                    subset_make(a, kept, name[f], glyph, 5);
                const struct subset *alone =
                    subset_make(a, NULL, name[f], glyph, 5);
                assert_non_null(one);
                assert_same(one, alone);
                assert_ptr_equal(one, subset_make(a, kept, name[f], glyph, 5));
                assert_int_equal(subset_glyph(one, 0), 0);
                assert_int_not_equal(subset_glyph(one, 90), 0);
                assert_int_equal(subset_glyph(one, 91), 0);
            }
    subset_kept_free(kept);
    arena_free(a);
}

/* What the build cut is what would be cut now, and a document of usual glyphs
 * takes it; what else it prints comes on top. */
static void test_ready(void **state) {
    (void)state;
    struct arena *a = arena_new();
    for (int f = 0; f < FACE_COUNT; f++) {
        const struct subset *ready = &subset_ready[f];
        struct subset now;
        cut_subset(a, &now, (enum face)f, ready->glyph, ready->count);
        assert_same(ready, &now);
        assert_ptr_equal(
            subset_make(a, NULL, (enum face)f, ready->glyph + 1, 2), ready);
        uint16_t other = 0;
        while (other < ready->count && ready->glyph[other] == other)
            other++;
        const struct subset *more =
            subset_make(a, NULL, (enum face)f, &other, 1);
        assert_int_equal(more->count, ready->count + 1);
        assert_int_not_equal(subset_glyph(more, other), 0);
        assert_int_equal(subset_glyph(ready, other), 0);
        assert_string_not_equal(more->name, ready->name);
        for (size_t i = 1; i < ready->count; i++)
            assert_int_not_equal(subset_glyph(more, ready->glyph[i]), 0);
    }
    arena_free(a);
}

/* What is packed unpacks to as many bytes as it says. */
static void test_packed(void **state) {
    (void)state;
    struct arena *a = arena_new();
    const uint16_t glyph[] = {0, 7, 30};
    const struct subset *s = subset_make(a, NULL, FACE_REGULAR, glyph, 3);
    uLongf room = s->len + 100;
    unsigned char *bytes = arena_alloc(a, room, 1);
    assert_int_equal(uncompress(bytes, &room, s->packed, (uLong)s->packed_len),
                     Z_OK);
    assert_int_equal(room, s->len);
    assert_true(strlen(s->name) > 8 && s->name[6] == '+');
    arena_free(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_kept_is_the_same),
        cmocka_unit_test(test_ready),
        cmocka_unit_test(test_packed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

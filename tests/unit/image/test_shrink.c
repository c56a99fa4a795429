/* test_shrink.c - area averaging against the plain definition. */
#include "base/arena.h"
#include "image/shrink.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

struct rows {
    unsigned width, height, channels;
    const unsigned char *samples;
};

static const unsigned char *shrunk(struct arena *a, struct rows from,
                                   struct shrink_size to) {
    struct shrink_size size = {from.width, from.height};
    struct shrink *s = shrink_new(a, size, to, from.channels);
    for (unsigned y = 0; y < from.height; y++)
        shrink_row(s, from.samples + (size_t)y * from.width * from.channels);
    return shrink_samples(s);
}

/* How much of [i, i + 1) lies in [low, high). */
static double overlap(unsigned i, double low, double high) {
    return fmax(0, fmin(i + 1, high) - fmax(i, low));
}

static double mean(struct rows r, struct shrink_size to, unsigned x, unsigned y,
                   unsigned channel) {
    double across = (double)r.width / to.width,
           down = (double)r.height / to.height, sum = 0;
    for (unsigned j = 0; j < r.height; j++)
        for (unsigned i = 0; i < r.width; i++)
            sum += r.samples[((size_t)j * r.width + i) * r.channels + channel] *
                   overlap(i, x * across, (x + 1) * across) *
                   overlap(j, y * down, (y + 1) * down);
    return sum / (across * down);
}

static void test_is_the_mean_of_the_area(void **state) {
    struct arena *a = arena_new();
    (void)state;
    unsigned noise = 1;
    for (unsigned channels = 1; channels <= 3; channels += 2) {
        struct rows r = {23, 17, channels, NULL};
        unsigned char *samples = arena_alloc(a, 23 * 17, channels);
        for (size_t i = 0; i < (size_t)23 * 17 * channels; i++) {
            noise = noise * 1103515245 + 12345;
            samples[i] = (unsigned char)(noise >> 16);
        }
        r.samples = samples;
        for (unsigned width = 1; width <= 23; width++)
            for (unsigned height = 1; height <= 17; height += 4) {
                struct shrink_size to = {width, height};
                const unsigned char *got = shrunk(a, r, to);
                for (unsigned y = 0; y < height; y++)
                    for (unsigned x = 0; x < width; x++)
                        for (unsigned c = 0; c < channels; c++)
                            assert_true(fabs(*got++ - mean(r, to, x, y, c)) <
                                        0.500001);
            }
    }
    arena_free(a);
}

static void test_same_size_is_the_same(void **state) {
    static const unsigned char samples[] = {1, 2, 3, 4, 5, 6};
    struct arena *a = arena_new();
    (void)state;
    struct rows r = {3, 2, 1, samples};
    assert_memory_equal(shrunk(a, r, (struct shrink_size){3, 2}), samples, 6);
    arena_free(a);
}

/* The sums of the largest image that is let in do not run over. */
static void test_white_stays_white(void **state) {
    enum { WIDTH = 60000, HEIGHT = 660 };
    struct arena *a = arena_new();
    (void)state;
    unsigned char *row = arena_alloc(a, WIDTH, 1);
    memset(row, 255, WIDTH);
    const struct shrink_size to[] = {{1, 1}, {7, 3}, {59999, 1}};
    for (size_t i = 0; i < sizeof to / sizeof *to; i++) {
        struct shrink *s =
            shrink_new(a, (struct shrink_size){WIDTH, HEIGHT}, to[i], 1);
        for (unsigned y = 0; y < HEIGHT; y++)
            shrink_row(s, row);
        for (size_t k = 0; k < (size_t)to[i].width * to[i].height; k++)
            assert_int_equal(shrink_samples(s)[k], 255);
    }
    arena_free(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_is_the_mean_of_the_area),
        cmocka_unit_test(test_same_size_is_the_same),
        cmocka_unit_test(test_white_stays_white),
    };
    return cmocka_run_group_tests_name("shrink", tests, NULL, NULL);
}

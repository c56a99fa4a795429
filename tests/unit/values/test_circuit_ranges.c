/* test_circuit_ranges.c - every result of every circuit of the guides in
 * procedures/, and of inputs whose sources limit themselves, in each state,
 * holds 1,000 samples of all figures. */
#include "circuit_guides.h"
#include "corner.h"
#include "unit/dice.h"

#include "base/arena.h"
#include "base/diag.h"
#include "source/circuit_tree.h"
#include "source/read.h"
#include "stages.h"
#include "values/circuit_block.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

enum { SAMPLES = 1000, WATCHED_MAX = 400, ROOTS_MAX = 200 };

struct watched {
    struct circuit_output of;
    struct ends ends;
    double low, high;
};

/* Points, and drop, current and heat of all that conducts. */
static size_t watch_all(struct values *v, const struct block *b,
                        struct circuit_work *w, size_t state, size_t variant,
                        struct watched *watch) {
    static const enum circuit_result kinds[] = {RESULT_DROP, RESULT_CURRENT,
                                                RESULT_HEAT};
    size_t count = 0;
    for (size_t i = 0; i < w->c->point_count; i++)
        if (w->node[i] != SIZE_MAX)
            watch[count++].of = (struct circuit_output){
                RESULT_POINT, state, i, false, {"", "V", ""}, 0, NULL};
    for (size_t i = 0; i < w->c->element_count; i++)
        for (size_t k = 0; k < 3 && w->in_net[i] != SIZE_MAX; k++)
            watch[count++].of =
                (struct circuit_output){kinds[k],
                                        state,
                                        i,
                                        false,
                                        {"",
                                         kinds[k] == RESULT_CURRENT ? "A"
                                         : kinds[k] == RESULT_HEAT  ? "W"
                                                                    : "V",
                                         ""},
                                        0,
                                        NULL};
    assert_true(count <= WATCHED_MAX);
    for (size_t i = 0; i < count; i++) {
        struct value value = circuit_block_result(
            v, b, &watch[i].of, text_of("watched"), variant, NULL);
        assert_int_equal(value.type, VALUE_QUANTITY);
        watch[i].ends = range_ends(value.quantity);
        watch[i].low = INFINITY;
        watch[i].high = -INFINITY;
    }
    return count;
}

static double sample_of(const struct circuit_work *w, const struct watched *x) {
    if (x->of.result == RESULT_POINT)
        return w->solution.volt[w->node[x->of.index]];
    size_t i = x->of.index;
    double u = w->solution.volt[w->from[i]] - w->solution.volt[w->to[i]];
    double current = w->solution.current[w->in_net[i]];
    return x->of.result == RESULT_DROP      ? u
           : x->of.result == RESULT_CURRENT ? current
                                            : u * current;
}

static size_t try_state(struct values *v, const struct block *b, size_t variant,
                        size_t state) {
    static struct watched watch[WATCHED_MAX];
    static struct dice dice = {17};
    struct corner corner[ROOTS_MAX];
    struct circuit_work *w = circuit_solve_open(v, b, variant);
    assert_true(w != NULL && circuit_solve_state(w, state, NULL));
    size_t watched = watch_all(v, b, w, state, variant, watch);
    size_t count = corner_roots(v->c->arena, w, corner, ROOTS_MAX);
    assert_true(count < ROOTS_MAX);
    for (int s = 0; s < SAMPLES; s++) {
        for (size_t r = 0; r < count; r++) {
            struct ends range = corner[r].root->range;
            double t = roll(&dice, 0, 1);
            if (s % 3 == 0) /* at the ends, where the worst are */
                t = t < 0.5 ? 0 : 1;
            corner[r].value = range.low + (range.high - range.low) * t;
        }
        assert_true(circuit_solve_corner(w, corner, count));
        for (size_t i = 0; i < watched; i++) {
            double y = sample_of(w, &watch[i]);
            watch[i].low = fmin(watch[i].low, y);
            watch[i].high = fmax(watch[i].high, y);
        }
    }
    for (size_t i = 0; i < watched; i++) {
        struct ends e = watch[i].ends;
        double slack = 1e-7 * (fabs(e.high) + fabs(e.low)) + 1e-9;
        if (watch[i].low < e.low - slack || watch[i].high > e.high + slack)
            fail_msg("%.*s, state %zu, variant %zu, result %d of %zu: %.9g to "
                     "%.9g, samples %.9g to %.9g",
                     (int)b->name.len, b->name.start, state, variant,
                     (int)watch[i].of.result, watch[i].of.index, e.low, e.high,
                     watch[i].low, watch[i].high);
    }
    return watched;
}

static void test_guides(void **state) {
    (void)state;
    struct compile c = {.library = "."};
    c.arena = arena_new();
    c.diags = diag_new(c.arena);
    size_t results = 0;
    for (size_t i = 0; i < CIRCUIT_INPUTS; i++) {
        const struct guide *g = source_read(&c, circuit_guides[i]);
        assert_non_null(g);
        struct values *v = values_evaluate(&c, g);
        for (size_t k = 0; k < g->block_count; k++) {
            const struct block *b = g->blocks[k];
            for (size_t s = 0;
                 b->circuit != NULL && s < b->circuit->state_count; s++)
                results += try_state(v, b, i % v->variant_count, s);
        }
    }
    print_message("%zu results, %d samples each\n", results, SAMPLES);
    assert_true(results > 300);
    arena_free(c.arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_guides),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

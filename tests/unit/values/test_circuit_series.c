/* test_circuit_series.c - parts that are asked for one current carry it. */
#include "circuit_guides.h"

#include "base/arena.h"
#include "base/diag.h"
#include "source/circuit_tree.h"
#include "source/read.h"
#include "stages.h"
#include "values/circuit_block.h"
#include "values/circuit_series.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

/* In the state at hand; how many elements are asked of another. */
static size_t check_state(const struct circuit_work *w, size_t state) {
    size_t shared = 0;
    for (size_t i = 0; i < w->c->element_count; i++) {
        if (w->part[i].law == LAWS)
            continue;
        size_t one = circuit_series_part(w, &w->memo[state], i);
        if (w->in_net[i] == SIZE_MAX) {
            assert_int_equal(one, i);
            continue;
        }
        assert_true(w->in_net[one] != SIZE_MAX);
        assert_int_equal(circuit_series_part(w, &w->memo[state], one), one);
        double own = w->solution.current[w->in_net[i]];
        double its = w->solution.current[w->in_net[one]];
        if (!(fabs(own - its) <= 1e-7 * fabs(its) + 1e-9))
            fail_msg("%s, state %zu: %.10g A, and %.10g A in %s",
                     w->part[i].name, state, own, its, w->part[one].name);
        shared += one != i;
    }
    return shared;
}

static size_t check_guide(struct compile *c, const struct guide *g) {
    size_t shared = 0;
    struct values *v = values_evaluate(c, g);
    for (size_t k = 0; k < g->block_count; k++) {
        const struct block *b = g->blocks[k];
        for (size_t i = 0; b->circuit != NULL && i < v->variant_count; i++) {
            struct circuit_work *w = circuit_block_open(v, b, i);
            assert_non_null(w);
            for (size_t s = 0; s < b->circuit->state_count; s++) {
                assert_true(circuit_solve_state(w, s, NULL));
                shared += check_state(w, s);
            }
        }
    }
    return shared;
}

static void test_guides(void **state) {
    (void)state;
    struct compile c = {.library = ".", .arena = arena_new()};
    c.diags = diag_new(c.arena);
    size_t shared = 0;
    for (size_t i = 0; i < CIRCUIT_GUIDES; i++)
        shared += check_guide(&c, source_read(&c, circuit_guides[i]));
    assert_true(shared > 200);
    arena_free(c.arena);
}

/* What floats behind an open switch leaks at one node, and beside it flows what
 * does not flow elsewhere: nothing is shared across either. */
static void test_cut_off(void **state) {
    (void)state;
    static const char text[] =
        "# Cut off\n\n```guide\nid: T-1\nrevision: 1\nstatus: draft\n```\n\n"
        "```supply battery\nchemistry: flooded\nresting: 12.6 V\n"
        "charging: 13.8 V\nresistance: 8 mohm\n```\n\n"
        "```wire\nconductor: AWG stranded\n```\n\n"
        "```circuit one\nas found: yes\nsupply: battery charging\n"
        "state: on\nstate: off, S1 open, S2 open\nfrom battery +\n"
        "fuse F1 10 A\nswitch S1\nwire W1 16 AWG, 2 m, red\n"
        "splice P1\nwire W2 16 AWG, 2 m, red\nswitch S2\n"
        "load E1 lamp, 4 A at 13.2 V\nto battery -\n```\n";
    struct compile c = {.library = ".", .arena = arena_new()};
    c.diags = diag_new(c.arena);
    const struct guide *g = source_read_text(&c, "series.md", text_of(text));
    assert_true(check_guide(&c, g) > 0);
    const struct block *b = NULL;
    for (size_t i = 0; i < g->block_count; i++)
        b = g->blocks[i]->circuit != NULL ? g->blocks[i] : b;
    assert_non_null(b);
    struct circuit_work *w = circuit_block_open(values_evaluate(&c, g), b, 0);
    assert_non_null(w);
    enum { F1, S1, W1, P1, W2, S2, E1 };
    for (size_t i = F1; i <= E1; i++) /* on: all of the load */
        assert_int_equal(circuit_series_part(w, &w->memo[0], i), E1);
    assert_int_equal(w->memo[1].strays, 1);
    assert_int_equal(circuit_series_part(w, &w->memo[1], F1), F1);
    assert_int_equal(circuit_series_part(w, &w->memo[1], S1), S1);
    assert_int_equal(circuit_series_part(w, &w->memo[1], E1), E1);
    assert_true(circuit_series_part(w, &w->memo[1], W2) != E1);
    arena_free(c.arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_guides),
        cmocka_unit_test(test_cut_off),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

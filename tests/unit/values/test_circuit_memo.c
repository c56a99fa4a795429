/* test_circuit_memo.c - a circuit with more corners than are kept: no more are
 * kept than may be, and what is worked out beyond them is the same; and one
 * whose states share their room. */
#include "base/arena.h"
#include "base/diag.h"
#include "source/circuit_tree.h"
#include "source/read.h"
#include "stages.h"
#include "values/circuit_block.h"
#include "values/circuit_memo.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

enum { BRANCHES = 30, RESULTS = 8 * BRANCHES * 3 };

/* Loads of different kinds and lengths on one feed: each result has corners of
 * its own. */
static const char *bundle(struct arena *a) {
    static const char *const kinds[] = {"lamp", "resistive", "motor"};
    struct buf text = buf_in(a);
    buf_puts(&text, "# Feed many loads\n\n```guide\nid: T-1\nrevision: 1\n"
                    "status: draft\n```\n\n"
                    "```supply battery\nchemistry: flooded\n"
                    "resting: 12.6 V\ncharging: 13.8 V (13.2 V to 14.4 V)\n"
                    "resistance: 8 mohm\n```\n\n"
                    "```wire\nconductor: AWG stranded\n```\n\n"
                    "```circuit bundle\nas found: yes\n"
                    "supply: battery charging\nfrom battery +\n"
                    "fuse F0 150 A, class T\n"
                    "wire W0 4 AWG, 1 m \xC2\xB1 0.2 m, red\nto bus\n");
    for (int i = 1; i <= BRANCHES; i++)
        buf_printf(&text,
                   "from bus\nwire W%d 16 AWG, %d m \xC2\xB1 0.5 m, red\n"
                   "load E%d %s, %d A \xC2\xB1 0.2 A at 13.2 V\n"
                   "joint G%d 5 mohm to %d mohm\nto battery -\n",
                   i, 1 + i % 4, i, kinds[i % 3], 1 + i % 3, i, 6 + i);
    buf_puts(&text, "```\n");
    return buf_cstr(&text);
}

/* Ends of drop, current and heat of all elements, from the first on or from the
 * last; *kept: corners. */
static size_t ends_of(struct compile *c, bool backward, struct ends *ends,
                      size_t *kept) {
    static const enum circuit_result kinds[] = {RESULT_DROP, RESULT_CURRENT,
                                                RESULT_HEAT};
    static const char *const units[] = {"V", "A", "W"};
    const struct guide *g =
        source_read_text(c, "bundle.md", text_of(bundle(c->arena)));
    struct values *v = values_evaluate(c, g);
    const struct block *b = NULL;
    for (size_t i = 0; i < g->block_count; i++)
        if (g->blocks[i]->circuit != NULL)
            b = g->blocks[i];
    assert_non_null(b);
    size_t count = 3 * b->circuit->element_count;
    assert_true(count <= RESULTS);
    for (size_t i = 0; i < count; i++) {
        size_t k = backward ? count - 1 - i : i;
        const struct circuit_output o = {.result = kinds[k % 3],
                                         .index = k / 3,
                                         .field = {"", units[k % 3], ""}};
        struct value value =
            circuit_block_result(v, b, &o, text_of("one"), 0, NULL);
        assert_int_equal(value.type, VALUE_QUANTITY);
        ends[k] = range_ends(value.quantity);
    }
    *kept = v->of_block[b->index].circuit[0]->memo[0].corner_count;
    return count;
}

static void same(double a, double b) {
    if (!(fabs(a - b) <= 1e-7 * fabs(b) + 1e-9))
        fail_msg("%.10g, and %.10g in the other order", a, b);
}

static void test_more_than_are_kept(void **state) {
    (void)state;
    static struct ends forward[RESULTS], backward[RESULTS];
    size_t kept[2];
    struct compile c = {.library = ".", .arena = arena_new()};
    c.diags = diag_new(c.arena);
    size_t count = ends_of(&c, false, forward, &kept[0]);
    ends_of(&c, true, backward, &kept[1]);
    assert_int_equal(kept[0], CIRCUIT_CORNERS_MAX);
    assert_int_equal(kept[1], CIRCUIT_CORNERS_MAX);
    for (size_t i = 0; i < count; i++) {
        same(forward[i].low, backward[i].low);
        same(forward[i].high, backward[i].high);
        assert_true(forward[i].low < forward[i].high);
    }
    arena_free(c.arena);
}

/* So many switches that only one state is at hand at a time. */
static const char *panel(struct arena *a) {
    struct buf text = buf_in(a);
    buf_puts(&text, "# Feed a panel\n\n```guide\nid: T-2\nrevision: 1\n"
                    "status: draft\n```\n\n"
                    "```supply battery\nchemistry: flooded\n"
                    "resting: 12.6 V\ncharging: 13.8 V (13.2 V to 14.4 V)\n"
                    "resistance: 8 mohm\n```\n\n"
                    "```wire\nconductor: AWG stranded\n```\n\n"
                    "```circuit panel\nas found: yes\n"
                    "supply: battery charging\n"
                    "state: one, S1 closed\nstate: two, S2 closed\n"
                    "from battery +\nfuse F0 150 A, class T\nto bus\n");
    for (int i = 1; i <= 120; i++)
        buf_printf(&text,
                   "from bus\nswitch S%d\nwire W%d 16 AWG, 2 m, red\n"
                   "load E%d lamp, 1 A at 13.2 V\nwire R%d 16 AWG, 2 m, "
                   "black\nto battery -\n",
                   i, i, i, i);
    buf_puts(&text, "```\n");
    return buf_cstr(&text);
}

/* A state that is solved again, since another stood in its room, is not kept
 * again: that took gigabytes. What was found in it stays found. */
static void test_states_that_share_room(void **state) {
    (void)state;
    struct compile c = {.library = ".", .arena = arena_new()};
    c.diags = diag_new(c.arena);
    const struct guide *g =
        source_read_text(&c, "panel.md", text_of(panel(c.arena)));
    struct values *v = values_evaluate(&c, g);
    const struct block *b = g->blocks[g->block_count - 1];
    assert_non_null(b->circuit);
    struct circuit_work *w = circuit_block_open(v, b, 0);
    const struct circuit_memo *m = w->memo;
    double *kept[2], volt[2] = {0, 0};
    const struct circuit_found *found[2];
    for (int round = 0; round < 4; round++)
        for (size_t s = 0; s < 2; s++) {
            assert_true(circuit_solve_state(w, s, NULL));
            double now = w->solution.volt[w->node_count - 1];
            assert_true(m[s].known);
            if (round > 0) {
                assert_ptr_equal(m[s].kept, kept[s]);
                assert_ptr_equal(m[s].found, found[s]);
                assert_true(now == volt[s]);
            }
            kept[s] = m[s].kept;
            found[s] = m[s].found;
            volt[s] = now;
        }
    assert_ptr_equal(m[0].work, m[1].work); /* or this tests nothing */
    arena_free(c.arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_more_than_are_kept),
        cmocka_unit_test(test_states_that_share_room),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

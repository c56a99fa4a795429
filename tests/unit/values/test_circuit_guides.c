/* test_circuit_guides.c - every circuit of the guides in procedures/, in each
 * variant and state, at its nominal figures and with every figure at an end,
 * against ngspice. */
#include "base/arena.h"
#include "base/diag.h"
#include "source/read.h"
#include "stages.h"

#include <errno.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include <cmocka.h>

#include "circuit_guides.h"
#include "corner.h"
#include "unit/calc/simulator.h"

enum { MANY = 400, ROOTS_MAX = 200 };

struct found {
    struct simulated of[MANY];
    size_t number[MANY], count;
};

/* The net as it stands, kept: the next state makes another of it. */
static void keep(struct found *f, struct arena *a,
                 const struct circuit_work *w) {
    assert_true(f->count < MANY);
    struct simulated *s = &f->of[f->count];
    size_t parts = w->net.part_count, nodes = w->net.node_count;
    struct net_part *part = arena_alloc(a, parts, sizeof *part);
    memcpy(part, w->net.part, parts * sizeof *part);
    s->part = part;
    s->net = (struct net){part, parts, nodes};
    s->solution.volt = arena_alloc(a, nodes, sizeof(double));
    memcpy(s->solution.volt, w->solution.volt, nodes * sizeof(double));
    write_net(s, 10000 + f->count);
    f->number[f->count] = 10000 + f->count;
    f->count++;
}

/* Every root with a width at one of its ends, by its turn. */
static void to_corner(struct arena *a, struct circuit_work *w, bool odd) {
    struct corner corner[ROOTS_MAX];
    size_t count = corner_roots(a, w, corner, ROOTS_MAX);
    assert_true(count < ROOTS_MAX);
    for (size_t i = 0; i < count; i++)
        corner[i].value = (i % 2 == 1) == odd ? corner[i].root->range.high
                                              : corner[i].root->range.low;
    assert_true(circuit_solve_corner(w, corner, count));
}

static void add_guide(struct found *f, struct compile *c, const char *path) {
    const struct guide *g = source_read(c, path);
    assert_non_null(g);
    struct values *v = values_evaluate(c, g);
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (b->circuit == NULL)
            continue;
        for (size_t variant = 0; variant < v->variant_count; variant++) {
            struct circuit_work *w = circuit_solve_open(v, b, variant);
            assert_non_null(w);
            for (size_t s = 0; s < b->circuit->state_count; s++) {
                assert_true(circuit_solve_state(w, s, NULL));
                keep(f, c->arena, w);
                for (int odd = 0; odd < 2; odd++) {
                    to_corner(c->arena, w, odd == 1);
                    keep(f, c->arena, w);
                }
            }
        }
    }
}

static void test_guides(void **state) {
    (void)state;
    struct compile c = {.library = "."};
    c.arena = arena_new();
    c.diags = diag_new(c.arena);
    assert_true(mkdir(FOLDER, 0777) == 0 || errno == EEXIST);
    struct found *f = arena_alloc(c.arena, 1, sizeof *f);
    for (size_t i = 0; i < CIRCUIT_INPUTS; i++)
        add_guide(f, &c, circuit_guides[i]);
    assert_true(f->count > 40);
    write_script("guides", f->number, f->count);
    run_simulator("guides");
    for (size_t i = 0; i < f->count; i++) {
        double worst = 0;
        size_t read = read_net(&f->of[i], f->number[i], &worst);
        if (read != f->of[i].net.node_count - 1)
            fail_msg("circuit %zu: ngspice gave no answer", f->number[i]);
        if (!(worst <= 1))
            fail_msg("circuit %zu: %g times the tolerance", f->number[i],
                     worst);
    }
    print_message("%zu nets\n", f->count);
    arena_free(c.arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_guides),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* test_circuit_fault.c - currents into a short are those of the same circuit
 * with a short soldered in. */
#include "bench.h"

#include "values/circuit_fault.h"

#include <math.h>
#include <stdint.h>

#define FACTS                                                                  \
    "```supply battery\nchemistry: flooded\n"                                  \
    "resting: 12.6 V (12.2 V to 12.8 V)\n"                                     \
    "charging: 13.8 V (13.2 V to 14.4 V)\n"                                    \
    "resistance: 8 mohm ± 1 mohm\n```\n"                                      \
    "```supply alternator\nchemistry: none\ncharging: 14.2 V ± 0.3 V\n"       \
    "resistance: 20 mohm ± 5 mohm\nrated output: 60 A\n```\n"                 \
    "```wire\nconductor: AWG stranded\ninsulation: 105 degC\n```\n"            \
    "```circuit one\nas found: yes\n"                                          \
    "supply: battery charging, alternator charging\n"                          \
    "from alternator +\nfuse F1 80 A\nwire W1 4 AWG, 3 m, red\n"               \
    "to bus\nfuse F2 80 A\nto battery +\n"                                     \
    "from bus\nfuse F3 15 A\nwire W3 14 AWG, 4 m, red\n"                       \
    "load E1 resistive, 5 A at 12 V\n"                                         \
    "wire W4 14 AWG, 4 m, black\nto battery -\n"                               \
    "from battery -\njoint G1 rail, 2 mohm ± 1 mohm\nto alternator -\n```\n"

enum { NODES = 16, PARTS = 40 };

/* Volts of the net with a short in it. */
static double soldered(const struct circuit_fault *f, size_t from, size_t to,
                       size_t part, double *through) {
    static double room[1 << 16];
    struct net_part parts[PARTS];
    struct net net = {parts, f->net.part_count + 1, f->net.node_count};
    struct net_solution s;
    assert_true(net.part_count <= PARTS && net.node_count <= NODES);
    assert_true(circuit_net_room(net.node_count, net.part_count) <=
                sizeof room / sizeof room[0]);
    memset(room, 0, sizeof room);
    memcpy(parts, f->net.part, f->net.part_count * sizeof *parts);
    parts[f->net.part_count] =
        (struct net_part){from, to, {LAW_RESISTANCE, {1e-9, 0, 0}}};
    enum net_fault fault = circuit_net_solve(&net, room, &s);
    assert_true(fault == NET_SOLVED || fault == NET_SHORTED);
    *through = fabs(s.current[f->in_net[part]]);
    return s.current[f->net.part_count];
}

static void test_as_soldered_in(void **state) {
    (void)state;
    struct guide_bench b = bench_open(FACTS);
    bench_expect_quiet(&b);
    b.values->c = &b.c;
    const struct block *block =
        values_block(b.values, b.guide->scopes[1], text_of("one"), "circuit");
    struct circuit_work *w = circuit_solve_open(b.values, block, 0);
    assert_true(w != NULL && circuit_solve_state(w, 0, NULL));
    for (int most = 0; most <= FAULT_LIMITED; most++) {
        struct circuit_fault *f =
            circuit_fault_open(w, (enum fault_end)most, NULL);
        assert_non_null(f);
        for (size_t from = 0; from < w->node_count; from++)
            for (size_t to = 0; to < w->node_count; to++) {
                double ampere = circuit_fault_between(f, from, to), through;
                if (ampere == 0)
                    continue;
                for (size_t part = 0; part < w->part_count; part++) {
                    if (f->in_net[part] == SIZE_MAX)
                        continue;
                    double real = soldered(f, from, to, part, &through);
                    assert_true(fabs(ampere - real) <= 1e-5 * real + 1e-4);
                    assert_true(fabs(circuit_fault_through(f, part) -
                                     through) <= 1e-5 * real + 1e-5);
                }
            }
    }
    bench_close(&b);
}

/* A battery of 14.4 V and 7 mohm into nothing but its own resistance:
 * 14.4/0.007 = 2057 A; at the least 12.2/0.009 = 1356 A. The alternator adds
 * what comes through W1. */
static void test_by_hand(void **state) {
    (void)state;
    struct guide_bench b = bench_open(
        "```supply battery\nchemistry: flooded\n"
        "resting: 12.6 V (12.2 V to 12.8 V)\n"
        "charging: 13.8 V (13.2 V to 14.4 V)\nresistance: 8 mohm ± 1 mohm\n"
        "```\n```circuit one\nas found: yes\nsupply: battery charging\n"
        "from battery +\nload E1 resistive, 5 A at 12 V\nto battery -\n```\n");
    bench_expect_quiet(&b);
    b.values->c = &b.c;
    const struct block *block =
        values_block(b.values, b.guide->scopes[1], text_of("one"), "circuit");
    struct circuit_work *w = circuit_solve_open(b.values, block, 0);
    assert_true(w != NULL && circuit_solve_state(w, 0, NULL));
    struct circuit_fault *f = circuit_fault_open(w, FAULT_MOST, NULL);
    assert_non_null(f);
    assert_true(fabs(circuit_fault_at(f, w->from[0]) - 14.4 / 0.007) < 0.1);
    assert_true(circuit_fault_at(f, w->to[0]) == 0);
    assert_true(fabs(circuit_fault_worst(f) - 14.4 / 0.007) < 0.1);
    assert_ptr_equal(circuit_fault_open(w, FAULT_MOST, NULL), f); /* again */
    assert_ptr_not_equal(circuit_fault_open(w, FAULT_LEAST, NULL), f);
    f = circuit_fault_open(w, FAULT_LEAST, NULL);
    assert_non_null(f);
    assert_true(fabs(circuit_fault_at(f, w->from[0]) - 12.2 / 0.009) < 0.1);
    bench_close(&b);
}

/* A charger of 28 V and 10 mohm gives a short 28.5/0.01 = 2850 A for an instant
 * and for long its rating, 19 A at the least. */
static void test_limited(void **state) {
    (void)state;
    struct guide_bench b = bench_open(
        "```supply charger\nchemistry: none\ncharging: 28 V ± 0.5 V\n"
        "resistance: 10 mohm\nrated output: 20 A ± 1 A\n"
        "```\n```circuit one\nas found: yes\nsupply: charger charging\n"
        "from charger +\nload E1 resistive, 5 A at 28 V\nto charger -\n```\n");
    bench_expect_quiet(&b);
    b.values->c = &b.c;
    const struct block *block =
        values_block(b.values, b.guide->scopes[1], text_of("one"), "circuit");
    struct circuit_work *w = circuit_solve_open(b.values, block, 0);
    assert_true(w != NULL && circuit_solve_state(w, 0, NULL));
    static const double wanted[] = {2750, 2800, 2850, 19};
    for (int end = FAULT_LEAST; end <= FAULT_LIMITED; end++) {
        struct circuit_fault *f =
            circuit_fault_open(w, (enum fault_end)end, NULL);
        assert_non_null(f);
        assert_true(fabs(circuit_fault_at(f, w->from[0]) - wanted[end]) <
                    1e-6 * wanted[end]);
    }
    double least = INFINITY;
    const struct circuit_fault_ways *ways = circuit_fault_least(w);
    assert_non_null(ways);
    for (size_t i = 0; i < ways->count; i++)
        least = fmin(least, circuit_fault_at(ways->way[i], w->from[0]));
    assert_true(fabs(least - 19) < 1e-4);
    bench_close(&b);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_as_soldered_in),
        cmocka_unit_test(test_by_hand),
        cmocka_unit_test(test_limited),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* test_circuit_chain.c - resistances and wires in series: what stands inside a
 * chain is as by hand, and as the law of each part says. */
#include "calc/circuit_chain.h"
#include "calc/conductor.h"

#include "check.h"

#include <math.h>
#include <stdlib.h>

static struct circuit_part_law resistance(double ohm) {
    return (struct circuit_part_law){LAW_RESISTANCE, {ohm, 0, 0}};
}

static struct circuit_part_law supply(double volt, double ohm) {
    return (struct circuit_part_law){LAW_SUPPLY, {volt, ohm, 0}};
}

/* In air of 40 degC; its ampacity is 40 A. */
static struct circuit_part_law wire(double ohm) {
    return circuit_law_wire(ohm, 313.15, 378.15, 303.15, 40, MATERIAL_COPPER);
}

static double *room_for(const struct net *n) {
    return calloc(circuit_net_room(n->node_count, n->part_count),
                  sizeof(double));
}

/* 12 V behind 1 ohm, then 2 ohm and, the other way round, 3 ohm: 2 A. An ampere
 * into the inner node meets 3 ohm on both sides: 1.5 V there, and half an
 * ampere through the 1 ohm: 0.5 V. */
static void test_by_hand(void **state) {
    (void)state;
    struct net_part part[] = {
        {0, 1, supply(12, 1)}, {1, 2, resistance(2)}, {0, 2, resistance(3)}};
    struct net n = {part, 3, 3};
    double *work = room_for(&n), weight[3] = {0, 0, 1}, by[3];
    struct net_solution s;
    assert_int_equal(circuit_net_solve(&n, work, &s), NET_SOLVED);
    assert_near(s.volt[1], 10, 1e-12);
    assert_near(s.volt[2], 6, 1e-12);
    assert_near(s.current[1], 2, 1e-12);
    assert_near(s.current[2], -2, 1e-12);
    circuit_net_adjoint(&n, work, weight, by);
    assert_near(by[1], 0.5, 1e-12);
    assert_near(by[2], 1.5, 1e-12);
    free(work);
}

/* A ring of three resistances at one node, and a part of which both ends are
 * one node: nothing goes through them. */
static void test_rings(void **state) {
    (void)state;
    struct net_part part[] = {{0, 1, supply(12, 1)},   {1, 2, resistance(1)},
                              {2, 3, resistance(1)},   {3, 1, resistance(1)},
                              {1, 1, resistance(0.1)}, {1, 0, resistance(5)}};
    struct net n = {part, 6, 4};
    double *work = room_for(&n);
    struct net_solution s;
    assert_int_equal(circuit_net_solve(&n, work, &s), NET_SOLVED);
    for (size_t p = 1; p < 4; p++)
        assert_near(s.volt[p], 10, 1e-12);
    for (size_t i = 1; i < 5; i++)
        assert_near(s.current[i], 0, 1e-12);
    free(work);
}

static void check_laws(const struct net *n, const struct net_solution *s,
                       double rest) {
    for (size_t i = 0; i < n->part_count; i++) {
        const struct net_part *p = &n->part[i];
        double slope, u = s->volt[p->from] - s->volt[p->to];
        double current = circuit_law_current(&p->law, u, &slope);
        assert_near(s->current[i], current, rest * fabs(current));
    }
}

/* Cold, then warm with other figures: 36 A, wires that melt, and back. */
static void test_wires(void **state) {
    (void)state;
    struct net_part part[] = {
        {0, 1, supply(12, 0.01)}, {1, 2, wire(0.01)},
        {2, 3, wire(0.005)},      {3, 4, resistance(0.005)},
        {4, 0, resistance(0.3)},  {0, 3, resistance(4)}};
    struct net n = {part, 6, 5};
    static const double ohm[] = {0.3, 0.31, 0.005, 0.3};
    double *work = room_for(&n);
    for (size_t i = 0; i < sizeof ohm / sizeof ohm[0]; i++) {
        struct net_solution s;
        part[4].law.figure[0] = ohm[i];
        assert_int_equal(circuit_net_solve(&n, work, &s), NET_SOLVED);
        check_laws(&n, &s, 1e-9);
        bool melts = fabs(s.volt[1] - s.volt[2]) >=
                     0.999 * part[1].law.figure[2] * s.current[1];
        assert_true(melts == (ohm[i] < 0.1));
    }
    free(work);
}

/* The adjoint of a node inside a chain against a solution with a leak there. */
static void test_adjoint_inside(void **state) {
    (void)state;
    enum { LEAK = 4 };
    struct net_part part[] = {{0, 1, supply(12, 0.01)},
                              {1, 2, wire(0.02)},
                              {3, 2, wire(0.01)},
                              {3, 0, {LAW_LAMP, {20, 12, 0}}},
                              {2, 0, {LAW_CURRENT, {1e-4, 0, 0}}}};
    struct net n = {part, LEAK, 4}, leaks = {part, LEAK + 1, 4};
    double *work = room_for(&n), *other = room_for(&leaks);
    double weight[4] = {0, 0, 1, -0.5}, by[4];
    struct net_solution s, t;
    assert_int_equal(circuit_net_solve(&n, work, &s), NET_SOLVED);
    assert_int_equal(circuit_net_solve(&leaks, other, &t), NET_SOLVED);
    circuit_net_adjoint(&n, work, weight, by);
    double drop = s.volt[2] - t.volt[2] - 0.5 * (s.volt[3] - t.volt[3]);
    assert_near(by[2], drop / 1e-4, 1e-4 * by[2]);
    free(work);
    free(other);
}

/* A load in the place of a resistance ends the chain; work of the first is
 * given to the second and back. */
static void test_other_law(void **state) {
    (void)state;
    struct circuit_part_law load = {LAW_CURRENT, {5, 0, 0}};
    struct net_part part[] = {{0, 1, supply(12, 0.01)},
                              {1, 2, resistance(0.1)},
                              {2, 3, resistance(1)},
                              {3, 0, resistance(0.1)}};
    struct net n = {part, 4, 4};
    double *work = room_for(&n);
    for (int i = 0; i < 3; i++) {
        part[2].law = i == 1 ? load : resistance(1);
        struct net_solution s;
        assert_int_equal(circuit_net_solve(&n, work, &s), NET_SOLVED);
        assert_near(s.current[0], i == 1 ? 5 : 12 / 1.21, 1e-9);
        check_laws(&n, &s, 1e-9);
    }
    free(work);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_by_hand), cmocka_unit_test(test_rings),
        cmocka_unit_test(test_wires), cmocka_unit_test(test_adjoint_inside),
        cmocka_unit_test(test_other_law)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* test_circuit_limited.c - circuits with a supply that limits itself, by hand.
 */
#include "calc/circuit_net.h"

#include "check.h"

#include <stdlib.h>

static enum net_fault fault_of(struct net_part *part, size_t count,
                               size_t nodes, size_t *where) {
    struct net n = {part, count, nodes};
    double *work = calloc(circuit_net_room(nodes, count), sizeof *work);
    struct net_solution s;
    enum net_fault fault = circuit_net_solve(&n, work, &s);
    *where = s.where;
    free(work);
    return fault;
}

/* By hand: a 28 V charger of 20 A behind 0.1 ohm, on 2 ohm, on 0.7 ohm, and
 * beside a battery of 25.2 V behind 10 mohm on a load of 60 A, of which the
 * battery gives the other 40. */
static void test_limited(void **state) {
    (void)state;
    struct net_part part[] = {{0, 1, {LAW_LIMITED, {28, 0.1, 20}}},
                              {1, 0, {LAW_RESISTANCE, {2, 0, 0}}},
                              {0, 1, {LAW_SUPPLY, {25.2, 0.01, 0}}}};
    struct net n = {part, 2, 2};
    double *work = calloc(circuit_net_room(2, 3), sizeof *work);
    struct net_solution s;
    assert_int_equal(circuit_net_solve(&n, work, &s), NET_SOLVED);
    assert_near(s.current[0], 28 / 2.1, 1e-9);
    part[1].law.figure[0] = 0.7;
    assert_int_equal(circuit_net_solve(&n, work, &s), NET_SOLVED);
    assert_near(s.volt[1], 14, 1e-9);
    assert_near(s.current[0], 20, 1e-9);
    part[1].law = (struct circuit_part_law){LAW_CURRENT, {60, 0, 0}};
    n.part_count = 3;
    work[0] = 0;
    assert_int_equal(circuit_net_solve(&n, work, &s), NET_SOLVED);
    assert_near(s.volt[1], 24.8, 1e-9);
    assert_near(s.current[2], 40, 1e-9);
    /* An ampere more is the battery's; one more of the rating is, too, and so
     * the voltage follows it. */
    double weight[2] = {0, 1}, by[2];
    circuit_net_adjoint(&n, work, weight, by);
    assert_near(by[1], 0.01, 1e-6);
    double u = -s.volt[1];
    assert_near((by[1] - by[0]) * circuit_law_moves(&part[0].law, u, 2), 0.01,
                1e-5);
    free(work);
}

/* One that gives way to a battery of half its voltage is not shorted; it is
 * where nothing holds a voltage, and where a battery drives it backwards. */
static void test_limited_is_judged(void **state) {
    (void)state;
    size_t where;
    struct net_part part[] = {{0, 1, {LAW_LIMITED, {28, 0.1, 20}}},
                              {1, 0, {LAW_RESISTANCE, {0.1, 0, 0}}}};
    assert_int_equal(fault_of(part, 2, 2, &where), NET_SHORTED);
    assert_int_equal(where, 0);
    part[1].law = (struct circuit_part_law){LAW_CURRENT, {20.1, 0, 0}};
    assert_int_equal(fault_of(part, 2, 2, &where), NET_SHORTED);
    part[1].law = (struct circuit_part_law){LAW_POWER, {570, 0, 0}};
    assert_int_equal(fault_of(part, 2, 2, &where), NET_UNFED);
    part[1].law.figure[0] = 500;
    assert_int_equal(fault_of(part, 2, 2, &where), NET_SOLVED);
    part[1] = (struct net_part){0, 1, {LAW_SUPPLY, {6, 0.01, 0}}};
    assert_int_equal(fault_of(part, 2, 2, &where), NET_SOLVED);
    struct net_part string[] = {{0, 1, {LAW_SUPPLY, {24, 0.01, 0}}},
                                {1, 2, {LAW_LIMITED, {12, 0.1, 1}}},
                                {2, 0, {LAW_RESISTANCE, {1, 0, 0}}}};
    assert_int_equal(fault_of(string, 3, 3, &where), NET_SHORTED);
    assert_int_equal(where, 1);
}

/* Loads of 0.2 % to 7 % more than what the charger gives: their voltage breaks
 * down, which tangents alone threw thousands of volts to and fro. */
static void test_limited_settles(void **state) {
    (void)state;
    struct net_part part[] = {{0, 1, {LAW_LIMITED, {26, 0.004, 6}}},
                              {1, 0, {LAW_CURRENT, {5, 0, 0}}},
                              {1, 0, {LAW_CURRENT, {1, 0, 0}}}};
    struct net n = {part, 3, 2};
    double *work = calloc(circuit_net_room(2, 3), sizeof *work);
    for (double more = 0.012; more < 0.4; more *= 1.5) {
        struct net_solution s;
        part[2].law.figure[0] = 1 + more;
        work[0] = 0;
        assert_int_equal(circuit_net_solve(&n, work, &s), NET_SHORTED);
        assert_near(s.volt[1], 6 / (6 + more), 1e-8);
        assert_true(s.rounds < 40);
    }
    free(work);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_limited),
        cmocka_unit_test(test_limited_is_judged),
        cmocka_unit_test(test_limited_settles),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

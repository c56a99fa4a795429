/* test_circuit_net.c - voltages of random circuits against ngspice, and what is
 * refused.
 *
 * BAYLEAF_CIRCUITS tells how many; else 2000, and 100 under the sanitizers;
 * every other one with supplies that limit themselves. ngspice solves the same
 * laws at reltol 1e-10, vntol 1e-12, gmin 1e-18: within 1e-6 at every node, 1
 * uV the floor. */
#include "calc/circuit_net.h"
#include "calc/conductor.h"

#include "check.h"

#include "simulator.h"
#include "unit/how_many.h"

#include <errno.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

enum { PARTS = 60, NODES = 61, RECENT = 4 };

struct random_net {
    struct net_part part[PARTS];
    struct simulated of;
    double *work;
};

/* The order in which arguments are evaluated is the compiler's: figures that
 * belong together are rolled one by one. Evenly over the decades. */
static double decade(struct dice *seed, double low, double high) {
    return low * pow(high / low, roll(seed, 0, 1));
}

static struct circuit_part_law series_law(struct dice *seed) {
    double which = roll(seed, 0, 1);
    if (which < 0.45) {
        double ohm = decade(seed, 1e-3, 0.1), ambient = roll(seed, 260, 340);
        return circuit_law_wire(
            ohm, ambient, 378.15, 303.15, roll(seed, 15, 80),
            which < 0.1 ? MATERIAL_ALUMINIUM : MATERIAL_COPPER);
    }
    if (which < 0.5)
        return (struct circuit_part_law){
            LAW_DIODE, {LAW_DIODE_SATURATION, LAW_DIODE_SLOPE, 0}};
    if (which < 0.6) /* a poor joint */
        return (struct circuit_part_law){LAW_RESISTANCE,
                                         {decade(seed, 0.05, 10), 0, 0}};
    return (struct circuit_part_law){LAW_RESISTANCE,
                                     {decade(seed, 1e-4, 0.05), 0, 0}};
}

static struct circuit_part_law load_law(struct dice *seed) {
    double which = roll(seed, 0, 1);
    if (which < 0.25)
        return (struct circuit_part_law){LAW_RESISTANCE,
                                         {decade(seed, 0.5, 200), 0, 0}};
    if (which < 0.55) {
        double ampere = decade(seed, 0.1, 15);
        return (struct circuit_part_law){LAW_LAMP,
                                         {ampere, roll(seed, 12, 14), 0}};
    }
    if (which < 0.8)
        return (struct circuit_part_law){LAW_CURRENT,
                                         {decade(seed, 0.05, 8), 0, 0}};
    return (struct circuit_part_law){LAW_POWER, {decade(seed, 0.5, 40), 0, 0}};
}

/* A tree of series parts that grows from the supply and from ground, its ends
 * loaded, and a few more loads and links. */
static void draw_net(struct random_net *r, struct dice seed) {
    size_t parts = 3 + (size_t)roll(&seed, 0, PARTS - 2), count = 0, nodes = 2;
    double volt = roll(&seed, 0, 1) < 0.8 ? 12 : 24;
    double open = volt * roll(&seed, 1, 1.2);
    r->part[count++] = (struct net_part){
        0, 1, {LAW_SUPPLY, {open, decade(&seed, 3e-3, 0.05), 0}}};
    while (count < parts) {
        size_t from = (size_t)roll(&seed, 0, (double)nodes);
        if (nodes > RECENT && roll(&seed, 0, 1) < 0.6)
            from = nodes - 1 - (size_t)roll(&seed, 0, RECENT);
        double what = roll(&seed, 0, 1);
        if (what < 0.6)
            r->part[count++] =
                (struct net_part){from, nodes++, series_law(&seed)};
        else if (what < 0.93 && from != 0)
            r->part[count++] = (struct net_part){from, 0, load_law(&seed)};
        else if (what >= 0.98) {
            open = volt * roll(&seed, 1, 1.2);
            r->part[count++] = (struct net_part){
                0,
                from == 0 ? 1 : from,
                {LAW_SUPPLY, {open, decade(&seed, 0.02, 0.2), 0}}};
        } else if (from > 1)
            r->part[count++] = (struct net_part){
                1, from, {LAW_RESISTANCE, {decade(&seed, 1e-3, 5), 0, 0}}};
    }
    r->of.part = r->part;
    r->of.net = (struct net){r->part, count, nodes};
    r->work = calloc(circuit_net_room(nodes, count), sizeof *r->work);
}

/* Every supply, or each by the dice, limits itself: to what moves nothing, to
 * what the loads pull it down from, to next to nothing. */
static void limit_supplies(struct random_net *r, struct dice seed, bool every) {
    for (size_t i = 0; i < r->of.net.part_count; i++) {
        struct circuit_part_law *law = &r->part[i].law;
        double most = decade(&seed, 0.5, 100), which = roll(&seed, 0, 1);
        if (law->law != LAW_SUPPLY || (!every && which < 0.5))
            continue;
        law->law = LAW_LIMITED;
        law->figure[2] = most;
    }
}

/* Whether one of them gives all that it may: the voltage of such a one may give
 * way, whoever judges it. */
static bool is_limited(const struct random_net *r) {
    const double *volt = r->of.solution.volt;
    for (size_t i = 0; i < r->of.net.part_count; i++)
        if (circuit_law_is_at_limit(&r->part[i].law, volt[r->part[i].from] -
                                                         volt[r->part[i].to]))
            return true;
    return false;
}

static void test_against_simulator(void **state) {
    (void)state;
    size_t most = how_many("BAYLEAF_CIRCUITS", 2000, 100);
    struct random_net *r = calloc(most, sizeof *r);
    size_t *number = calloc(most, sizeof *number), count = 0;
    assert_true(mkdir(FOLDER, 0777) == 0 || errno == EEXIST);
    size_t limited = 0;
    for (uint64_t seed = 1; count < most; seed++) {
        draw_net(&r[count], (struct dice){seed * 7919});
        if (seed % 2 == 0)
            limit_supplies(&r[count], (struct dice){seed * 104729},
                           seed % 4 == 0);
        enum net_fault fault = circuit_net_solve(
            &r[count].of.net, r[count].work, &r[count].of.solution);
        bool weak = fault == NET_SHORTED && is_limited(&r[count]);
        if (fault == NET_SOLVED || weak) {
            limited += is_limited(&r[count]);
            write_net(&r[count].of, count);
            number[count] = count;
            count++;
            continue;
        }
        if (fault == NET_DIVERGES || fault == NET_FLOATS)
            fail_msg("circuit %zu: fault %d", (size_t)seed, (int)fault);
        free(r[count].work);
    }
    write_script("random", number, count);
    run_simulator("random");
    size_t silent = 0; /* it found no solution itself */
    for (size_t i = 0; i < count; i++) {
        double worst = 0;
        if (read_net(&r[i].of, i, &worst) != r[i].of.net.node_count - 1)
            silent++;
        else if (!(worst <= 1))
            fail_msg("circuit %zu: %g times the tolerance", i, worst);
        free(r[i].work);
    }
    print_message("%zu circuits, %zu with a supply at its limit, %zu that "
                  "ngspice did not solve\n",
                  count, limited, silent);
    assert_true(silent * 50 <= count && limited * 10 >= count);
    free(r);
    free(number);
}

struct rounds {
    int cold, warm, most;
};

/* Of the first circuits: cold, then warm with loads that take 1 % more. */
static struct rounds rounds_of(bool limited) {
    enum { CIRCUITS = 20000 };
    struct rounds sum = {0, 0, 0};
    struct random_net *r = calloc(1, sizeof *r);
    for (uint64_t seed = 1; seed <= CIRCUITS; seed++) {
        draw_net(r, (struct dice){seed * 7919});
        if (limited)
            limit_supplies(r, (struct dice){seed * 104729}, seed % 2 == 0);
        struct net_solution s;
        enum net_fault fault = circuit_net_solve(&r->of.net, r->work, &s);
        if (fault == NET_DIVERGES)
            fail_msg("circuit %zu does not settle", (size_t)seed);
        sum.cold += s.rounds;
        sum.most = s.rounds > sum.most ? s.rounds : sum.most;
        for (size_t i = 0; i < r->of.net.part_count; i++)
            if (r->part[i].law.law == LAW_LAMP ||
                r->part[i].law.law == LAW_CURRENT ||
                r->part[i].law.law == LAW_POWER)
                r->part[i].law.figure[0] *= 1.01;
        circuit_net_solve(&r->of.net, r->work, &s);
        sum.warm += s.rounds;
        free(r->work);
    }
    free(r);
    print_message("%d circuits: %d rounds cold (at most %d), %d warm\n",
                  CIRCUITS, sum.cold, sum.most, sum.warm);
    return sum;
}

/* A change to how the iteration gets to its solution shows here. Room for
 * another machine's last bits. */
static void test_rounds(void **state) {
    (void)state;
    struct rounds sum = rounds_of(false);
    assert_in_range(sum.cold, 161856 - 5, 161856 + 5);
    assert_int_equal(sum.most, 185);
    assert_in_range(sum.warm, 46622 - 5, 46622 + 5);
    sum = rounds_of(true);
    assert_in_range(sum.cold, 211855 - 5, 211855 + 5);
    assert_in_range(sum.warm, 47035 - 5, 47035 + 5);
}

static void test_room(void **state) {
    (void)state;
    /* A flag; 3 figures a node, 6 a part; a matrix; indices of half a double:
     * of the matrix 50, 5 places and 5 rows, 10 cells of rows, 30 neighbours by
     * node; of chains 58, 2 counts, 5 a part and 1, 4 a node. */
    assert_int_equal(circuit_net_room(5, 7), 1 + 15 + 42 + 25 + 25 + 29);
}

/* 12 V, 1 ohm, 5 ohm by hand: 10 V and 2 A. */
static void test_by_hand(void **state) {
    (void)state;
    struct net_part part[] = {{0, 1, {LAW_SUPPLY, {12, 1, 0}}},
                              {1, 0, {LAW_RESISTANCE, {5, 0, 0}}}};
    struct net n = {part, 2, 2};
    double *work = calloc(circuit_net_room(2, 2), sizeof *work);
    struct net_solution s;
    assert_int_equal(circuit_net_solve(&n, work, &s), NET_SOLVED);
    assert_near(s.volt[1], 10, 1e-12);
    assert_near(s.current[1], 2, 1e-12);
    double weight[2] = {0, 1}, by[2];
    circuit_net_adjoint(&n, work, weight, by);
    /* an ampere more at the node costs the two in parallel, 5/6 V */
    assert_near(by[1], 5.0 / 6, 1e-12);
    /* by hand: V = E R/(R + Ri), dV/dR = E Ri/(R + Ri)^2 = 1/3 */
    assert_near((by[0] - by[1]) * circuit_law_moves(&part[1].law, 10, 0),
                1.0 / 3, 1e-6);
    free(work);
}

/* Every node joined to every other, a 12 V supply of 1 ohm over two of them:
 * between any two of n nodes joined by 1 ohm there is 2/n ohm. */
static void test_dense(void **state) {
    (void)state;
    enum { MESHED = 7 };
    struct net_part part[1 + MESHED * (MESHED - 1) / 2] = {
        {0, 1, {LAW_SUPPLY, {12, 1, 0}}}};
    size_t count = 1;
    for (size_t a = 0; a < MESHED; a++)
        for (size_t b = 0; b < a; b++)
            part[count++] =
                (struct net_part){a, b, {LAW_RESISTANCE, {1, 0, 0}}};
    struct net n = {part, count, MESHED};
    double *work = calloc(circuit_net_room(MESHED, count), sizeof *work);
    struct net_solution s;
    assert_true(circuit_net_solve(&n, work, &s) == NET_SHORTED);
    assert_near(s.volt[1], 12 * (2.0 / MESHED) / (1 + 2.0 / MESHED), 1e-12);
    for (size_t p = 2; p < MESHED; p++)
        assert_near(s.volt[p], s.volt[1] / 2, 1e-12);
    free(work);
}

/* The room of one net taken for another of its size. */
static void test_room_again(void **state) {
    (void)state;
    struct net_part star[] = {{0, 1, {LAW_SUPPLY, {12, 1, 0}}},
                              {1, 2, {LAW_RESISTANCE, {1, 0, 0}}},
                              {1, 3, {LAW_RESISTANCE, {1, 0, 0}}},
                              {2, 0, {LAW_RESISTANCE, {1, 0, 0}}},
                              {3, 0, {LAW_RESISTANCE, {1, 0, 0}}}};
    struct net_part chain[] = {{0, 3, {LAW_SUPPLY, {12, 1, 0}}},
                               {3, 1, {LAW_RESISTANCE, {1, 0, 0}}},
                               {1, 2, {LAW_RESISTANCE, {1, 0, 0}}},
                               {2, 0, {LAW_RESISTANCE, {1, 0, 0}}},
                               {2, 0, {LAW_RESISTANCE, {1, 0, 0}}}};
    struct net first = {star, 5, 4}, second = {chain, 5, 4};
    double *work = calloc(circuit_net_room(4, 5), sizeof *work);
    struct net_solution s;
    assert_int_equal(circuit_net_solve(&first, work, &s), NET_SOLVED);
    assert_near(s.volt[1], 6, 1e-12);
    memset(work, 0x55, circuit_net_room(4, 5) * sizeof *work);
    work[0] = 0; /* another net */
    assert_int_equal(circuit_net_solve(&second, work, &s), NET_SOLVED);
    assert_near(s.volt[3], 12 * 2.5 / 3.5, 1e-12);
    assert_near(s.volt[1], 12 * 1.5 / 3.5, 1e-12);
    assert_near(s.volt[2], 12 * 0.5 / 3.5, 1e-12);
    free(work);
}

/* Circuits with a wire at its melting point, the corner of its law, between
 * whose sides tangents threw it to and fro. */
static void test_melting(void **state) {
    (void)state;
    static const uint64_t seeds[] = {237870, 239315, 245950,
                                     257019, 264046, 274273};
    struct random_net *r = calloc(1, sizeof *r);
    for (size_t i = 0; i < sizeof seeds / sizeof seeds[0]; i++) {
        draw_net(r, (struct dice){seeds[i] * 7919});
        struct net_solution s;
        enum net_fault fault = circuit_net_solve(&r->of.net, r->work, &s);
        if (fault == NET_DIVERGES || s.rounds > 200)
            fail_msg("circuit %zu: fault %d, %d rounds", (size_t)seeds[i],
                     (int)fault, s.rounds);
        free(r->work);
    }
    free(r);
}

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

static void test_refused(void **state) {
    (void)state;
    size_t where;
    struct net_part apart[] = {{0, 1, {LAW_SUPPLY, {12, 0.01, 0}}},
                               {1, 0, {LAW_RESISTANCE, {5, 0, 0}}},
                               {2, 3, {LAW_RESISTANCE, {5, 0, 0}}}};
    assert_int_equal(fault_of(apart, 3, 4, &where), NET_FLOATS);
    assert_int_equal(where, 2);
    struct net_part shorted[] = {{0, 1, {LAW_SUPPLY, {12, 0.01, 0}}},
                                 {1, 0, {LAW_RESISTANCE, {0.001, 0, 0}}}};
    assert_int_equal(fault_of(shorted, 2, 2, &where), NET_SHORTED);
    assert_int_equal(where, 0);
    /* 12 V behind 1 ohm gives 36 W at the most */
    struct net_part hungry[] = {{0, 1, {LAW_SUPPLY, {12, 1, 0}}},
                                {1, 0, {LAW_POWER, {37, 0, 0}}}};
    assert_int_equal(fault_of(hungry, 2, 2, &where), NET_UNFED);
    assert_int_equal(where, 1);
    hungry[1].law.figure[0] = 35;
    assert_int_equal(fault_of(hungry, 2, 2, &where), NET_SOLVED);
}

/* 12 V behind 1 ohm and 30 W: 6 V + sqrt(6^2 - 30) V is where the load runs, 6
 * V less that is where its voltage has broken down. A solution from that
 * voltage before finds the first as well. */
static void test_power_where_it_runs(void **state) {
    (void)state;
    struct net_part part[] = {{0, 1, {LAW_SUPPLY, {3, 0.01, 0}}},
                              {1, 0, {LAW_POWER, {1, 0, 0}}}};
    struct net net = {part, 2, 2};
    struct net_solution s;
    double *work = calloc(circuit_net_room(2, 2), sizeof *work);
    assert_int_equal(circuit_net_solve(&net, work, &s), NET_SOLVED);
    assert_near(s.volt[1], 3, 0.01);
    part[0].law = (struct circuit_part_law){LAW_SUPPLY, {12, 1, 0}};
    part[1].law.figure[0] = 30;
    assert_int_equal(circuit_net_solve(&net, work, &s), NET_SOLVED);
    assert_near(s.volt[1], 6 + sqrt(6), 1e-9);
    free(work);
}

/* Where nothing settles the first load of constant power is what asks too much.
 */
static void test_hungry(void **state) {
    (void)state;
    static const uint64_t seeds[] = {31492, 64649, 179668, 260955};
    struct random_net *r = calloc(1, sizeof *r);
    for (size_t i = 0; i < sizeof seeds / sizeof seeds[0]; i++) {
        draw_net(r, (struct dice){seeds[i] * 7919});
        struct net_solution s;
        assert_int_equal(circuit_net_solve(&r->of.net, r->work, &s), NET_UNFED);
        assert_int_equal(s.rounds, 300);
        size_t first = 0;
        while (r->part[first].law.law != LAW_POWER)
            first++;
        assert_int_equal(s.where, first);
        free(r->work);
    }
    free(r);
}

/* The law of a wire agrees with the heat balance of wire.h. */
static void test_wire_law(void **state) {
    (void)state;
    struct circuit_part_law p =
        circuit_law_wire(0.02, 303.15, 378.15, 303.15, 40, MATERIAL_COPPER);
    double slope, current = circuit_law_current(&p, 0.8, &slope);
    double hot = circuit_law_temperature(&p, current, 303.15, MATERIAL_COPPER);
    double rise = 75 * pow(current / 40, 2) *
                  conductor_ratio(MATERIAL_COPPER, 378.15, hot);
    assert_near(hot, 303.15 + rise, 1e-9);
    assert_near(current * 0.02 * conductor_ratio(MATERIAL_COPPER, 293.15, hot),
                0.8, 1e-9);
}

/* A thousand parts: half a second would be slow. */
static void test_thousand(void **state) {
    (void)state;
    enum { MANY = 1000 };
    struct net_part *part = calloc(MANY, sizeof *part);
    struct dice seed = {5};
    part[0] = (struct net_part){0, 1, {LAW_SUPPLY, {13, 0.001, 0}}};
    size_t nodes = 2;
    for (size_t i = 1; i < MANY; i++) {
        size_t from = 1 + (size_t)roll(&seed, 0, (double)nodes - 1);
        part[i] =
            i % 5 == 0
                ? (struct net_part){from, 0, {LAW_LAMP, {0.02, 13, 0}}}
                : (struct net_part){from, nodes++,
                                    circuit_law_wire(0.005, 300, 378, 303, 50,
                                                     MATERIAL_COPPER)};
    }
    struct net n = {part, MANY, nodes};
    double *work = calloc(circuit_net_room(nodes, MANY), sizeof *work);
    struct net_solution s;
    struct timespec a, b;
    clock_gettime(CLOCK_MONOTONIC, &a);
    assert_int_equal(circuit_net_solve(&n, work, &s), NET_SOLVED);
    clock_gettime(CLOCK_MONOTONIC, &b);
    print_message("1000 parts: %.1f ms\n",
                  (double)(b.tv_sec - a.tv_sec) * 1e3 +
                      (double)(b.tv_nsec - a.tv_nsec) / 1e6);
    double sum = 0; /* what leaves the supply comes back through the loads */
    for (size_t i = 1; i < MANY; i++)
        sum += part[i].to == 0 ? s.current[i] : 0;
    assert_near(sum, s.current[0], 1e-9);
    free(part);
    free(work);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_by_hand),
        cmocka_unit_test(test_rounds),
        cmocka_unit_test(test_room),
        cmocka_unit_test(test_dense),
        cmocka_unit_test(test_power_where_it_runs),
        cmocka_unit_test(test_hungry),
        cmocka_unit_test(test_melting),
        cmocka_unit_test(test_room_again),
        cmocka_unit_test(test_refused),
        cmocka_unit_test(test_wire_law),
        cmocka_unit_test(test_thousand),
        cmocka_unit_test(test_against_simulator),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* test_circuit_block.c - the ends of a circuit's results hold every sample of
 * its parts. */
#include "bench.h"
#include "corner.h"
#include "unit/dice.h"

#include "calc/conductor.h"
#include "values/circuit_block.h"

#include <math.h>

enum { SAMPLES = 1000, ROOTS_MAX = 64 };

#define FACTS                                                                  \
    "```supply battery\n"                                                      \
    "charging: 13.8 V (13.2 V to 14.4 V)\n"                                    \
    "resistance: 8 mohm ± 1 mohm\n"                                           \
    "```\n"                                                                    \
    "```load lamps\n"                                                          \
    "kind: lamp\n"                                                             \
    "current: 10 A ± 1 A at 13.2 V\n"                                         \
    "```\n"                                                                    \
    "```load radio\n"                                                          \
    "kind: constant power\n"                                                   \
    "current: 2 A ± 0.5 A at 12 V\n"                                          \
    "```\n"                                                                    \
    "```wire\n"                                                                \
    "conductor: AWG stranded\n"                                                \
    "```\n"                                                                    \
    "```values\n"                                                              \
    "run = 3 m ± 0.5 m\n"                                                     \
    "```\n"                                                                    \
    "```circuit one\n"                                                         \
    "as found: yes\n"                                                          \
    "supply: battery charging\n"                                               \
    "from battery +\n"                                                         \
    "fuse F1 15 A\n"                                                           \
    "wire W1 14 AWG, run, red\n"                                               \
    "to bus\n"                                                                 \
    "switch S1\n"                                                              \
    "joint G1 screw, 0.05 ohm to 10 ohm\n"                                     \
    "load E1 lamps\n"                                                          \
    "to chassis\n"                                                             \
    "wire W2 14 AWG, run + 0.3 m, black\n"                                     \
    "joint G2 ring\n"                                                          \
    "to battery -\n"                                                           \
    "from bus\n"                                                               \
    "diode V1\n"                                                               \
    "load E2 radio\n"                                                          \
    "to chassis\n"                                                             \
    "```\n"

static struct ends ends_of(struct guide_bench *b, const char *name) {
    struct slot *s = names_find(b->values, b->guide->scopes[1], text_of(name));
    assert_non_null(s);
    const struct value *value = evaluate_slot(b->values, s, 0);
    assert_int_equal(value->type, VALUE_QUANTITY);
    return range_ends(value->quantity);
}

struct watched {
    const char *name;
    size_t part;
    bool heat;
    struct ends ends;
    double low, high;
};

static void test_samples_are_within(void **state) {
    (void)state;
    struct guide_bench b = bench_open(FACTS);
    bench_expect_quiet(&b);
    b.values->c = &b.c; /* not the one that bench_open had */
    struct watched watch[] = {
        {.name = "one.G1.heat", .part = 3, .heat = true},
        {.name = "one.G1.drop", .part = 3},
        {.name = "one.E1.voltage", .part = 4},
        {.name = "one.E2.voltage", .part = 8},
        {.name = "one.W2.drop", .part = 5},
        {.name = "one.G2.heat", .part = 6, .heat = true},
        {.name = "one.V1.drop", .part = 7},
    };
    enum { WATCHED = sizeof watch / sizeof watch[0] };
    for (size_t i = 0; i < WATCHED; i++) {
        watch[i].ends = ends_of(&b, watch[i].name);
        watch[i].low = INFINITY;
        watch[i].high = -INFINITY;
    }
    const struct block *block =
        values_block(b.values, b.guide->scopes[1], text_of("one"), "circuit");
    struct circuit_work *w = circuit_solve_open(b.values, block, 0);
    assert_non_null(w);
    assert_true(circuit_solve_state(w, 0, NULL));
    struct corner corner[ROOTS_MAX];
    size_t count = corner_roots(b.values->c->arena, w, corner, ROOTS_MAX);
    assert_true(count >= 8 && count < ROOTS_MAX);
    struct dice dice = {11};
    for (int s = 0; s < SAMPLES; s++) {
        for (size_t r = 0; r < count; r++) {
            struct ends range = corner[r].root->range;
            bool decades = range.low > 0 && s % 2 == 0;
            double t = roll(&dice, 0, 1);
            corner[r].value = decades
                                  ? range.low * pow(range.high / range.low, t)
                                  : range.low + (range.high - range.low) * t;
        }
        assert_true(circuit_solve_corner(w, corner, count));
        for (size_t i = 0; i < WATCHED; i++) {
            double u = w->solution.volt[w->from[watch[i].part]] -
                       w->solution.volt[w->to[watch[i].part]];
            double y = watch[i].heat
                           ? u * w->solution.current[w->in_net[watch[i].part]]
                           : u;
            watch[i].low = fmin(watch[i].low, y);
            watch[i].high = fmax(watch[i].high, y);
        }
    }
    for (size_t i = 0; i < WATCHED; i++) {
        struct ends e = watch[i].ends;
        double slack = 1e-9 * (fabs(e.high) + fabs(e.low));
        print_message("%s: %g to %g, samples %g to %g\n", watch[i].name, e.low,
                      e.high, watch[i].low, watch[i].high);
        assert_true(watch[i].low >= e.low - slack);
        assert_true(watch[i].high <= e.high + slack);
    }
    bench_close(&b);
}

/* W1 feeds starter and lamp, W2 the starter alone, W3 the lamp alone. */
#define SHARED                                                                 \
    "```supply battery\n"                                                      \
    "resting: 12.6 V\n"                                                        \
    "resistance: 5 mohm\n"                                                     \
    "```\n"                                                                    \
    "```load starter\n"                                                        \
    "kind: constant current\n"                                                 \
    "current: 240 A at 10.5 V\n"                                               \
    "duty: cranking\n"                                                         \
    "```\n"                                                                    \
    "```wire\n"                                                                \
    "conductor: AWG stranded\n"                                                \
    "insulation: 105 degC\n"                                                   \
    "ambient: 30 degC\n"                                                       \
    "```\n"                                                                    \
    "```circuit one\n"                                                         \
    "as found: yes\n"                                                          \
    "supply: battery resting\n"                                                \
    "state: cranking\n"                                                        \
    "state: off, M1 off\n"                                                     \
    "from battery +\n"                                                         \
    "wire W1 2 AWG, 2 m, red\n"                                                \
    "to stud\n"                                                                \
    "wire W2 2 AWG, 2 m, red\n"                                                \
    "load M1 starter\n"                                                        \
    "to battery -\n"                                                           \
    "from stud\n"                                                              \
    "wire W3 14 AWG, 2 m, red\n"                                               \
    "load E1 constant current, 20 A at 12 V\n"                                 \
    "to battery -\n"                                                           \
    "```\n"

static double nominal_of(struct guide_bench *b, const char *name) {
    struct slot *s = names_find(b->values, b->guide->scopes[1], text_of(name));
    assert_non_null(s);
    const struct value *value = evaluate_slot(b->values, s, 0);
    assert_int_equal(value->type, VALUE_QUANTITY);
    return value->quantity->nominal;
}

/* By hand, copper: (b + T) of the wire grows by exp(J^2 t / C^2), C = 226 A
 * s^0.5/mm2 (IEC 60949), in the 15 s that are assumed; the 20 A that last warm
 * a cable for 210 A in 30 degC by (20 A / 210 A)^2 of 75 K before. */
static void test_cranks_besides(void **state) {
    (void)state;
    struct guide_bench b = bench_open(SHARED);
    bench_expect_quiet(&b);
    b.values->c = &b.c;
    struct resistance ohm;
    const struct wire_size *size;
    assert_int_equal(size_read("2 AWG", 5, WIRE_AWG_STRANDED, &size),
                     SIZE_FOUND);
    assert_true(conductor_resistance(size, MATERIAL_COPPER, &ohm));
    double mm2 = size->area * 1e6;
    double cold = 2 * ohm.nominal * (234.5 + 30) / (234.5 + 20);
    double grown = exp(260 / mm2 * 260 / mm2 * 15 / 226 / 226) *
                   (1 + 75 * 20.0 * 20 / 210 / 210 / (234.5 + 30));
    double drop = nominal_of(&b, "one.W1.drop");
    assert_true(fabs(drop / (260 * cold * grown) - 1) < 1e-3);
    /* W3 has its lamp for hours, whatever is cranked. */
    double on = nominal_of(&b, "one.W3.drop");
    assert_true(fabs(on - nominal_of(&b, "one.off.W3.drop")) < 1e-9);
    bench_close(&b);
}

/* W1 has 115 A for hours, and a starter of 120 A besides. */
#define HOT                                                                    \
    "```supply battery\n"                                                      \
    "resting: 12.6 V\n"                                                        \
    "resistance: 8 mohm\n"                                                     \
    "```\n"                                                                    \
    "```load starter\n"                                                        \
    "kind: motor\n"                                                            \
    "current: 120 A ± 10 A at 10.5 V\n"                                       \
    "duty: cranking\n"                                                         \
    "```\n"                                                                    \
    "```wire\n"                                                                \
    "conductor: AWG stranded\n"                                                \
    "insulation: 105 degC\n"                                                   \
    "ambient: 30 degC\n"                                                       \
    "```\n"                                                                    \
    "```circuit one\n"                                                         \
    "as found: yes\n"                                                          \
    "supply: battery resting\n"                                                \
    "state: cranking\n"                                                        \
    "state: off, M1 off\n"                                                     \
    "state: shed, E1 off\n"                                                    \
    "from battery +\n"                                                         \
    "wire W1 6 AWG, 1.2 m, red\n"                                              \
    "to stud\n"                                                                \
    "load M1 starter\n"                                                        \
    "to battery -\n"                                                           \
    "from stud\n"                                                              \
    "load E1 constant current, 115 A at 12 V\n"                                \
    "to battery -\n"                                                           \
    "```\n"

/* K, by hand, of W1: table 5 of 33 CFR 183.425 gives 120 A at 30 degC, so that
 * `lasting` leaves b + T = (30 + b)/(1 - k I^2), k = 75 / ((105 + b) 120^2),
 * b = 234.5; the start makes it exp((I/(226 S))^2 t) times as much. */
static double hot_by_hand(double lasting, double start, double seconds) {
    const struct wire_size *size;
    assert_int_equal(size_read("6 AWG", 5, WIRE_AWG_STRANDED, &size),
                     SIZE_FOUND);
    double k = 75 / (105 + 234.5) / (120.0 * 120);
    double j = start / (226 * size->area * 1e6);
    return (30 + 234.5) / (1 - k * lasting * lasting) * exp(j * j * seconds) -
           234.5 + 273.15;
}

static void test_cranks_from_what_lasts(void **state) {
    (void)state;
    struct guide_bench b = bench_open(HOT);
    bench_expect_quiet(&b);
    b.values->c = &b.c;
    double off = nominal_of(&b, "one.off.W1.temperature");
    assert_true(fabs(off - hot_by_hand(115, 0, 0)) < 0.1);
    double on = nominal_of(&b, "one.W1.temperature");
    print_message("off %g, cranked %g\n", off - 273.15, on - 273.15);
    assert_true(fabs(on - hot_by_hand(115, 235, 15)) < 0.1);
    struct ends e = ends_of(&b, "one.W1.temperature");
    double most = hot_by_hand(115, 245, 30), least = hot_by_hand(115, 225, 10);
    print_message("%g to %g, by hand %g to %g\n", e.low - 273.15,
                  e.high - 273.15, least - 273.15, most - 273.15);
    assert_true(fabs(e.high - most) < 0.1 && fabs(e.low - least) < 0.1);
    /* What is off while the engine is cranked has heated W1 before. */
    double shed = nominal_of(&b, "one.shed.W1.temperature");
    assert_true(fabs(shed - hot_by_hand(115, 120, 15)) < 0.1);
    double ratio = nominal_of(&b, "one.shed.W1.drop") / 120 /
                   (nominal_of(&b, "one.off.W1.drop") / 115);
    double grown = (shed - 273.15 + 234.5) / (off - 273.15 + 234.5);
    print_message("resistance grows by %g, by its temperature %g\n", ratio,
                  grown);
    assert_true(fabs(ratio / grown - 1) < 1e-3);
    bench_close(&b);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_samples_are_within),
        cmocka_unit_test(test_cranks_besides),
        cmocka_unit_test(test_cranks_from_what_lasts),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* test_fuse.c - ratings, place, opening times, against the wire. */
#include "calc/fuse.h"
#include "calc/wire.h"

#include "wires.h"

static const struct fuse_style *style(const char *name) {
    const struct fuse_style *s = fuse_style_find(name, strlen(name));
    if (!s)
        fail_msg("no style '%s'", name);
    return s;
}

/* Each style of the design, with rising ratings and a falling envelope. */
static void test_styles(void **state) {
    (void)state;
    static const char *const wanted[] = {
        "mini blade", "blade",   "maxi blade", "strip SF30",
        "strip SF51", "class T", "glass",      "breaker"};
    for (size_t i = 0; i < sizeof wanted / sizeof wanted[0]; i++)
        style(wanted[i]);
    assert_null(fuse_style_find("wire nail", 9));
    const struct fuse_style *s;
    size_t n = 0;
    for (; (s = fuse_style_at(n)) != NULL; n++) {
        assert_ptr_equal(style(s->name), s);
        assert_true(s->rating_count > 0 && s->source && s->form);
        for (size_t i = 1; i < s->rating_count; i++)
            assert_true(s->rating[i].amp > s->rating[i - 1].amp);
        for (size_t i = 1; i < s->time_count; i++) {
            assert_true(s->time[i].multiple > s->time[i - 1].multiple);
            assert_true(s->time[i].shortest <= s->time[i - 1].shortest);
            assert_true(s->time[i].longest <= s->time[i - 1].longest);
        }
        for (size_t i = 0; i < s->time_count; i++)
            assert_true(s->time[i].shortest <= s->time[i].longest);
        assert_true((s->time == NULL) == (s->time_count == 0));
        assert_true(s->time_source && s->per_kelvin_source &&
                    s->interrupt_source && s->ambient_source);
        assert_true(s->coldest < CELSIUS(0) && s->hottest > CELSIUS(60));
        assert_true(isnan(s->interrupt) == isnan(s->interrupt_volt));
        /* What it breaks is told at no more than it is made for. */
        assert_true(s->volt_source && !(s->interrupt_volt > s->volt));
    }
    assert_int_equal(n, 11);
}

static void test_bolted(void **state) {
    (void)state;
    assert_true(fuse_is_bolted(style("class T"), 30));
    assert_false(fuse_is_bolted(style("maxi blade"), 100));
    assert_false(fuse_is_bolted(NULL, 100));
    assert_true(fuse_is_bolted(NULL, 110));
}

static void test_rating(void **state) {
    (void)state;
    const struct fuse_style *blade = style("blade");
    assert_true(fuse_rating_up(blade, 0.5)->amp == 1);
    assert_true(fuse_rating_down(blade, 1)->amp == 1);
    assert_true(fuse_rating_up(blade, 7.6)->amp == 10);
    assert_true(fuse_rating_up(blade, 7.5)->amp == 7.5);
    assert_true(fuse_rating_up(blade, 7.5 * (1 + 1e-12))->amp == 7.5);
    assert_true(fuse_rating_up(blade, 7.5 * (1 + 1e-7))->amp == 10);
    assert_null(fuse_rating_up(blade, 41));
    assert_true(fuse_rating_down(blade, 29.9)->amp == 25);
    assert_true(fuse_rating_down(blade, 30)->amp == 30);
    assert_true(fuse_rating_down(blade, 30 * (1 - 1e-12))->amp == 30);
    assert_true(fuse_rating_down(blade, 30 * (1 - 1e-7))->amp == 25);
    assert_null(fuse_rating_down(blade, 0.5));
    assert_true(fuse_rating_find(blade, 30)->amp == 30);
    assert_null(fuse_rating_find(blade, 31));
    assert_null(fuse_rating_find(blade, 50));
    /* The same colour means another current in another form (C22). */
    assert_string_equal(fuse_rating_find(blade, 10)->colour, "red");
    assert_string_equal(fuse_rating_find(style("maxi blade"), 50)->colour,
                        "red");
    assert_null(fuse_rating_find(style("strip SF30"), 60)->colour);
    assert_string_equal(fuse_colour(blade, 5), "tan");
    assert_string_equal(fuse_colour(blade, 31), "as its maker's");
    assert_string_equal(fuse_colour(style("strip SF30"), 60), "as its maker's");
}

static void test_interrupt(void **state) {
    (void)state;
    assert_true(fuse_interrupt(style("blade"), 14.4) == 1000);
    assert_true(fuse_interrupt(style("blade"), 32) == 1000);
    assert_true(isnan(fuse_interrupt(style("blade"), 48)));
    assert_true(fuse_interrupt(style("class T"), 57.6) == 20000);
    assert_true(isnan(fuse_interrupt(style("glass"), 12)));
}

static void test_ambient(void **state) {
    (void)state;
    const struct fuse_style *blade = style("blade");
    assert_true(fuse_ambient_factor(blade, CELSIUS(25)) == 1);
    assert_true(fuse_ambient_factor(blade, CELSIUS(-10)) == 1);
    assert_near(fuse_ambient_factor(blade, CELSIUS(85)), 0.91, 1e-12);
    /* 1 - 0.0015 x 100; nothing is known beyond the makers' range */
    assert_near(fuse_ambient_factor(blade, CELSIUS(125)), 0.85, 1e-12);
    assert_true(isnan(fuse_ambient_factor(blade, CELSIUS(125.1))));
    assert_true(fuse_ambient_factor(blade, CELSIUS(-40)) == 1);
    assert_true(isnan(fuse_ambient_factor(blade, CELSIUS(-40.1))));
    assert_true(isnan(fuse_ambient_factor(blade, NAN)));
    assert_true(isnan(fuse_ambient_factor(style("class T"), CELSIUS(86))));
}

/* The envelope at its own points, and its shape between and beyond. */
static void test_opening(void **state) {
    (void)state;
    const struct fuse_style *s;
    for (size_t n = 0; (s = fuse_style_at(n)) != NULL; n++) {
        double shortest = 0, longest = 0;
        if (s->time_count == 0) {
            assert_false(fuse_opening(s, 2, &shortest, &longest));
            assert_true(isnan(fuse_multiple(s, 1)));
            continue;
        }
        for (size_t i = 0; i < s->time_count; i++) {
            double m = s->time[i].multiple;
            assert_true(fuse_opening(s, m, &shortest, &longest));
            assert_true(shortest <= s->time[i].shortest * (1 + 1e-12));
            assert_true(longest == s->time[i].longest ||
                        near(longest, s->time[i].longest, 1e-12));
        }
        double last_short = INFINITY, last_long = INFINITY;
        for (double m = 0.1; m < 100; m *= 1.003) {
            assert_true(fuse_opening(s, m, &shortest, &longest));
            assert_true(shortest <= longest);
            assert_true(shortest <= last_short && longest <= last_long);
            last_short = shortest;
            last_long = longest;
        }
        assert_false(fuse_opening(s, NAN, &shortest, &longest));
        assert_false(fuse_opening(s, -1, &shortest, &longest));
    }
    /* Half way on log paper between 2.00 (5 s) and 3.50 (0.5 s). */
    double shortest, longest;
    assert_true(
        fuse_opening(style("blade"), sqrt(2 * 3.5), &shortest, &longest));
    assert_near(longest, sqrt(5 * 0.5), 1e-12);
    assert_near(shortest, sqrt(0.15 * 0.04), 1e-12);
    /* Beyond the last point I2t stands: 6.00, 0.1 s. */
    fuse_opening(style("blade"), 12, &shortest, &longest);
    assert_near(longest, 0.025, 1e-12);
    assert_near(shortest, 0.005, 1e-12);
    /* Below the first point it does not open. */
    fuse_opening(style("blade"), 1.05, &shortest, &longest);
    assert_true(isinf(shortest) && isinf(longest));
    /* Between a point that need not open and one that must. */
    fuse_opening(style("blade"), 1.2, &shortest, &longest);
    assert_true(isinf(longest) && shortest < 360000 && shortest > 0.75);
}

static void test_multiple(void **state) {
    (void)state;
    const struct fuse_style *blade = style("blade");
    assert_near(fuse_multiple(blade, 5), 2, 1e-9);
    assert_near(fuse_multiple(blade, 1800), 1.35, 1e-9);
    assert_near(fuse_multiple(blade, 3600), 1.35, 1e-9);
    assert_near(fuse_multiple(style("glass"), 3600), 1.35, 1e-9);
    assert_true(isnan(fuse_multiple(blade, 0.01)));
}

/* The hazard catalogue's case: 18 AWG at 95 A behind a 40 A fuse (2.4 times)
 * loses the race; 10 AWG behind 30 A wins it. */
static void test_wire(void **state) {
    (void)state;
    double margin, worst;
    struct wire_run thin = {
        ampacity(AMPACITY_33CFR, awg("18 AWG"), 105, 1, false)};
    assert_true(fuse_wire_margin(style("blade"), 40, &thin, CELSIUS(30),
                                 CELSIUS(30), CELSIUS(150), 2, &margin,
                                 &worst));
    assert_true(margin < 1 && worst >= 2);
    struct wire_run thick = {
        ampacity(AMPACITY_33CFR, awg("10 AWG"), 105, 1, false)};
    assert_true(fuse_wire_margin(style("blade"), 30, &thick, CELSIUS(60),
                                 CELSIUS(50), CELSIUS(160), 1.35, &margin,
                                 &worst));
    assert_true(margin > 1);
    /* The worst point may be either end of the curve. */
    const struct fuse_style *strip = style("strip SF51");
    struct wire_run mid = {
        ampacity(AMPACITY_33CFR, awg("8 AWG"), 105, 1, false)};
    double first, last, at;
    for (double amp = 40; amp <= 400; amp *= 1.2) {
        assert_true(fuse_wire_margin(strip, amp, &mid, CELSIUS(60), CELSIUS(50),
                                     CELSIUS(160), 1.35, &margin, &worst));
        fuse_opening(strip, 1.35, &first, &last);
        double begin = wire_time(&mid, 1.35 * amp, CELSIUS(60), CELSIUS(50),
                                 CELSIUS(160)) /
                       last;
        fuse_opening(strip, 6, &first, &last);
        double end =
            wire_time(&mid, 6 * amp, CELSIUS(60), CELSIUS(50), CELSIUS(160)) /
            last;
        assert_true(margin <= begin && margin <= end);
        fuse_opening(strip, worst, &first, &last);
        at = wire_time(&mid, worst * amp, CELSIUS(60), CELSIUS(50),
                       CELSIUS(160)) /
             last;
        assert_near(margin, at, 1e-12);
    }
    /* A wire that never gets there has no worst point. */
    struct wire_run huge = {
        ampacity(AMPACITY_33CFR, awg("4/0 AWG"), 105, 1, false)};
    assert_true(fuse_wire_margin(style("mini blade"), 2, &huge, CELSIUS(30),
                                 CELSIUS(30), CELSIUS(160), 1, &margin,
                                 &worst));
    assert_true(isinf(margin) && isnan(worst));
    /* Where the device need not open at all, an overheated wire is lost. */
    assert_true(fuse_wire_margin(style("blade"), 40, &thin, CELSIUS(30),
                                 CELSIUS(30), CELSIUS(150), 1.0, &margin,
                                 &worst));
    assert_true(margin == 0 && worst < 1.35);
    assert_false(fuse_wire_margin(style("breaker"), 30, &thick, CELSIUS(60),
                                  CELSIUS(50), CELSIUS(160), 2, &margin,
                                  &worst));
}

/* 33 CFR 183.455: 7 and 40 in; 72 in from memory. 150 % below 50 V. */
static void test_rules(void **state) {
    (void)state;
    assert_near(fuse_place_find(false, false)->most, 0.1778, 1e-12);
    assert_near(fuse_place_find(true, false)->most, 0.1778, 1e-12);
    assert_near(fuse_place_find(false, true)->most, 1.016, 1e-12);
    assert_near(fuse_place_find(true, true)->most, 1.8288, 1e-12);
    size_t n = 0;
    for (; fuse_place_at(n); n++)
        assert_true(fuse_place_at(n)->source && fuse_place_at(n)->words);
    assert_int_equal(n, 4);
    const struct fuse_rule *r = fuse_rule_find("150 %", 5);
    assert_true(r->share == 1.5 && r->below_volt == 50);
    r = fuse_rule_find("100 %", 5);
    assert_true(r->share == 1 && isinf(r->below_volt));
    assert_null(fuse_rule_find("200 %", 5));
    assert_ptr_equal(fuse_rule_at(0), r);
    assert_null(fuse_rule_at(2));
    /* 16 AWG, 105 degC, 25 A: 37.5 A at most. 33 CFR 183.455(c)(1). */
    double in[] = {25, 1.5};
    assert_near(fuse_calculation(FUSE_MOST)->value(NULL, in), 37.5, 1e-12);
}

static void test_calculations(void **state) {
    (void)state;
    const struct calculation *least = fuse_calculation(FUSE_LEAST);
    double in[] = {24, 0.8, 0.96};
    assert_near(least->value(NULL, in), 31.25, 1e-12);
    struct bounds b[] = {{0, 100}, {0.5, 1}, {0.5, 1}};
    assert_trends(least, NULL, b, 30);
    struct bounds m[] = {{0, 500}, {1, 1.5}};
    assert_trends(fuse_calculation(FUSE_MOST), NULL, m, 31);
    for (int k = 0; k < 3; k++) {
        double bad[] = {24, 0.8, 0.96};
        bad[k] = k == 0 ? -1 : 0;
        assert_true(isnan(least->value(NULL, bad)));
    }
    double half[] = {0.5, 0.5};
    assert_near(fuse_calculation(FUSE_MOST)->value(NULL, half), 0.25, 1e-12);
    double bad[] = {-1, 1.5};
    assert_true(isnan(fuse_calculation(FUSE_MOST)->value(NULL, bad)));
    double worse[] = {1, -1.5};
    assert_true(isnan(fuse_calculation(FUSE_MOST)->value(NULL, worse)));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_styles),   cmocka_unit_test(test_bolted),
        cmocka_unit_test(test_rating),   cmocka_unit_test(test_interrupt),
        cmocka_unit_test(test_ambient),  cmocka_unit_test(test_opening),
        cmocka_unit_test(test_multiple), cmocka_unit_test(test_wire),
        cmocka_unit_test(test_rules),    cmocka_unit_test(test_calculations),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

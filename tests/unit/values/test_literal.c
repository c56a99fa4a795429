/* test_literal.c - numbers, units, tolerances and ranges as they are written.
 */
#include "bench.h"

#include "values/literal.h"

#include <math.h>

struct reading {
    struct guide_bench bench;
    struct quantity_maker maker;
    struct scan scan;
    struct quantity *quantity;
};

/* Reads one literal from the beginning of a text. */
static struct reading literal(const char *text) {
    struct reading r = {.bench = bench_open("")};
    struct compile *c = &r.bench.c;
    r.maker.arena = c->arena;
    r.scan = (struct scan){
        .text = text_of(text), .diags = c->diags, .arena = c->arena};
    r.quantity = literal_read(&r.scan, &r.maker);
    return r;
}

static void close_reading(struct reading *r) {
    bench_close(&r->bench);
}

static bool near(double got, double wanted) {
    return fabs(got - wanted) <= 1e-12 * fabs(wanted);
}

struct row {
    const char *text;
    double nominal, low, high; /* SI */
    const char *unit;          /* "" for none */
    int decimals;
    const char *rest; /* what is left to read */
};

static void test_what_is_read(void **state) {
    (void)state;
    static const struct row rows[] = {
        {"30 A", 30, 30, 30, "A", 0, ""},
        {"30A", 30, 30, 30, "A", 0, ""},
        {"13.80 V", 13.8, 13.8, 13.8, "V", 2, ""},
        {"-5 A", -5, -5, -5, "A", 0, ""},
        {"\xE2\x88\x92"
         "5 A",
         -5, -5, -5, "A", 0, ""},
        {"007 A", 7, 7, 7, "A", 0, ""},
        {"2", 2, 2, 2, "", 0, ""},
        {"2.5", 2.5, 2.5, 2.5, "", 1, ""},
        {"5/16 in", 0.0079375, 0.0079375, 0.0079375, "in", -1, ""},
        {"1 1/2 in", 0.0381, 0.0381, 0.0381, "in", -1, ""},
        {"-1 1/2 in", -0.0381, -0.0381, -0.0381, "in", -1, ""},
        {"5/16\"", 0.0079375, 0.0079375, 0.0079375, "in", -1, ""},
        {"6' x", 1.8288, 1.8288, 1.8288, "ft", 0, " x"},
        {"45 degC", 318.15, 318.15, 318.15, "degC", 0, ""},
        {"68 deg F", 293.15, 293.15, 293.15, "degF", 0, ""},
        {"0 degC", 273.15, 273.15, 273.15, "degC", 0, ""},
        {"80 %", 0.8, 0.8, 0.8, "%", 0, ""},
        /* tolerances */
        {"30 A \xC2\xB1 2 A", 30, 28, 32, "A", 0, ""},
        {"30 A +/- 2 A", 30, 28, 32, "A", 0, ""},
        {"30A\xC2\xB1"
         "2A",
         30, 28, 32, "A", 0, ""},
        {"12.6 V \xC2\xB1 5 %", 12.6, 11.97, 13.23, "V", 1, ""},
        {"-10 A \xC2\xB1 10 %", -10, -11, -9, "A", 0, ""},
        {"80 % \xC2\xB1 5 %", 0.8, 0.75, 0.85, "%", 0, ""},
        {"2 \xC2\xB1 0.5", 2, 1.5, 2.5, "", 0, ""},
        {"2 m \xC2\xB1 10 cm", 2, 1.9, 2.1, "m", 0, ""},
        {"45 degC \xC2\xB1 9 degF", 318.15, 313.15, 323.15, "degC", 0, ""},
        {"45 degC \xC2\xB1 5 K", 318.15, 313.15, 323.15, "degC", 0, ""},
        /* ranges */
        {"28 A to 32 A", 30, 28, 32, "A", 0, ""},
        {"28 to 32 A", 30, 28, 32, "A", 0, ""},
        {"28 A to 32", 30, 28, 32, "A", 0, ""},
        {"28 A to 33 A", 30.5, 28, 33, "A", 1, ""},
        {"28 A to 32.5 A", 30.25, 28, 32.5, "A", 2, ""},
        {"-2 A to 2 A", 0, -2, 2, "A", 0, ""},
        {"1 m to 300 cm", 2, 1, 3, "m", 0, ""},
        {"1/4 in to 1/2 in", 0.009525, 0.00635, 0.0127, "in", -1, ""},
        {"0.25 in to 1/2 in", 0.009525, 0.00635, 0.0127, "in", -1, ""},
        {"1/4 in to 0.5 in", 0.009525, 0.00635, 0.0127, "in", -1, ""},
        {"0 degC to 40 degC", 293.15, 273.15, 313.15, "degC", 0, ""},
        {"13.8 V (13.2 V to 14.4 V)", 13.8, 13.2, 14.4, "V", 1, ""},
        {"13.8 V (13.2 to 14.4)", 13.8, 13.2, 14.4, "V", 1, ""},
        {"13.8 V (13.8 V to 13.8 V)", 13.8, 13.8, 13.8, "V", 1, ""},
        /* what ends a literal */
        {"2 in the box", 0.0508, 0.0508, 0.0508, "in", 0, " the box"},
        {"28 A for 60 ms", 28, 28, 28, "A", 0, " for 60 ms"},
        {"2 * x", 2, 2, 2, "", 0, " * x"},
        {"2 (x)", 2, 2, 2, "", 0, " (x)"},
        {"12 V) + 1", 12, 12, 12, "V", 0, ") + 1"},
        {"5 V/m2", 5, 5, 5, "V/m2", 0, ""},
        {"2 or 3", 2, 2, 2, "", 0, " or 3"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const struct row *w = &rows[i];
        struct reading r = literal(w->text);
        const struct quantity *q = r.quantity;
        if (q == NULL)
            fail_msg("'%s': %s", w->text, bench_messages(&r.bench));
        const char *unit = q->unit == NULL ? "" : q->unit->name;
        struct text rest = text_part(r.scan.text, r.scan.at, r.scan.text.len);
        if (!near(q->nominal, w->nominal) || !near(q->range.low, w->low) ||
            !near(q->range.high, w->high) || strcmp(unit, w->unit) != 0 ||
            q->decimals != w->decimals || !text_is(rest, w->rest))
            fail_msg("'%s': %.17g (%.17g to %.17g) '%s', %d decimals, rest "
                     "'%.*s'",
                     w->text, q->nominal, q->range.low, q->range.high, unit,
                     q->decimals, (int)rest.len, rest.start);
        close_reading(&r);
    }
}

/* A range is exact at its ends, whatever its middle. */
static void test_ends_are_exact(void **state) {
    (void)state;
    struct reading r = literal("0.1 V to 0.7 V");
    assert_true(r.quantity->range.low == 0.1);
    assert_true(r.quantity->range.high == 0.7);
    assert_true(r.quantity->nominal == 0.4);
    close_reading(&r);
    r = literal("0.3 V \xC2\xB1 0.1 V"); /* 0.19999999999999998 in binary */
    assert_true(r.quantity->range.low == 0.2);
    assert_true(r.quantity->range.high == 0.4);
    close_reading(&r);
}

static void test_fractions_keep_their_spelling(void **state) {
    (void)state;
    struct reading r = literal("1 1/2 in \xC2\xB1 1/32 in");
    assert_true(r.quantity->fraction);
    assert_true(text_is(r.quantity->written, "1 1/2"));
    close_reading(&r);
    r = literal("1/4 in to 1/2 in"); /* the middle was not written */
    assert_false(r.quantity->fraction);
    close_reading(&r);
    r = literal("0.25 in");
    assert_false(r.quantity->fraction);
    close_reading(&r);
}

static void test_what_is_refused(void **state) {
    (void)state;
    static const struct {
        const char *text, *message;
    } rows[] = {
        {".5 V", "write a 0 before the point"},
        {"-.5 V", "write a 0 before the point"},
        {"1,5 V", "write a decimal point"},
        {"1,500 V", "without it, or a decimal point"},
        {"1.5,2 V", "comma"},
        {"1/0 in", "a fraction over 0"},
        {"5 zorks", "unknown unit: 'zorks'"},
        {"5 Volt-ish", "unknown unit"},
        {"30 A \xC2\xB1", "a number belongs behind"},
        {"30 A \xC2\xB1 x", "a number belongs behind"},
        {"30 A \xC2\xB1 -2 A", "negative tolerance"},
        {"30 A \xC2\xB1 2", "number without a unit"},
        {"30 A \xC2\xB1 2 V", "voltage on current"},
        {"30 \xC2\xB1 2 V", "tolerance in another kind of unit"},
        {"30 A to", "a number at each end"},
        {"30 A to x", "a number at each end"},
        {"30 A to 2 V", "units do not fit"},
        {"30 A to 28 A", "wrong order"},
        {"10 degC to 20 K", "units do not fit"},
        {"13.8 V (13.2 V)", "(LOW to HIGH)"},
        {"13.8 V (13.2 V to 14.4 V", "not closed"},
        {"13.8 V (14.4 V to 13.2 V)", "wrong order"},
        {"13.8 V (14.0 V to 14.4 V)", "outside its own range"},
        {"13.8 V (13.0 V to 13.4 V)", "outside its own range"},
        {"13.8 V (1 A to 2 A)", "units do not fit"},
        {"13.8 V (13.2 to 14400 mV)", "either unit"},
        {"-274 degC", "below absolute zero"},
        {"5 degC \xC2\xB1 300 K", "below absolute zero"},
        {"-300 degC to 20 degC", "below absolute zero"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct reading r = literal(rows[i].text);
        if (r.quantity != NULL ||
            strstr(bench_messages(&r.bench), rows[i].message) == NULL)
            fail_msg("'%s': wanted '%s', got %s", rows[i].text, rows[i].message,
                     bench_messages(&r.bench));
        assert_true(r.scan.failed);
        assert_int_equal(diag_count(r.bench.c.diags, LEVEL_WARNING), 1);
        close_reading(&r);
    }
}

/* Digits without end: no crash, no infinity. */
static void test_huge_numbers(void **state) {
    (void)state;
    static const char *const forms[] = {
        "%s A",      "1/%s A",          "%s/3 A",
        "2 %s/3 A",  "1 A \xC2\xB1 %s", "1 A \xC2\xB1 %s/3",
        "1 A to %s", "1 A to %s/3",     "1 A (0 A to %s/3 A)",
        "0.%s A",    "%s mile",
    };
    char digits[402];
    memset(digits, '9', sizeof digits - 1);
    digits[sizeof digits - 1] = '\0';
    for (size_t i = 0; i < sizeof forms / sizeof forms[0]; i++) {
        struct arena *a = arena_new();
        struct buf b = buf_in(a);
        const char *at = strstr(forms[i], "%s");
        buf_add(&b, forms[i], (size_t)(at - forms[i]));
        buf_puts(&b, digits);
        buf_puts(&b, at + 2);
        struct reading r = literal(buf_cstr(&b));
        if (r.quantity != NULL ||
            strstr(bench_messages(&r.bench), "too large or too small") == NULL)
            fail_msg("%s", buf_cstr(&b));
        close_reading(&r);
        arena_free(a);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_what_is_read),
        cmocka_unit_test(test_ends_are_exact),
        cmocka_unit_test(test_fractions_keep_their_spelling),
        cmocka_unit_test(test_what_is_refused),
        cmocka_unit_test(test_huge_numbers),
    };
    return cmocka_run_group_tests_name("values/literal", tests, NULL, NULL);
}

/* test_spot.c - what counts as a number with a unit in running text. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/arena.h"
#include "checks/spot.h"

#define NBSP "\xC2\xA0"

/* The values found in a text, with bars between them. */
static const char *found(struct arena *a, const char *text) {
    struct buf b = buf_in(a);
    struct text t = text_of(text);
    struct spot s;
    buf_puts(&b, "");
    for (size_t at = 0; spot_next(a, t, at, &s); at = s.to) {
        assert_true(s.from < s.to && s.to <= t.len && s.to > at);
        buf_printf(&b, "%s%s", b.len > 0 ? "|" : "", s.value);
    }
    return buf_cstr(&b);
}

static void expect(const char *const (*list)[2], size_t count) {
    struct arena *a = arena_new();
    for (size_t i = 0; i < count; i++)
        assert_string_equal(found(a, list[i][0]), list[i][1]);
    arena_free(a);
}

static void test_quantities(void **state) {
    (void)state;
    static const char *const list[][2] = {
        {"Drill 7/16 in deep, 30 A.", "7/16 in|30 A"},
        {"a 1 1/2 in hole, 2½ in, ½ in", "1 1/2 in|2 1/2 in|1/2 in"},
        {"-5 V, .5 V, 1,500 V", "-5 V|0.5 V|1,500 V"},
        {"5–10 A, 5-10 A, 5 to 10 A", "5 to 10 A|5 to 10 A|5 to 10 A"},
        {"13 ± 1 V, ±5 V, ≈5 V", "13 ± 1 V|5 V|5 V"},
        {"5" NBSP "V, 5\xE2\x80\x89V, 5\nV", "5 V|5 V|5 V"},
        {"a 12-V battery, 12-volt", "12 V|12 volt"},
        {"12V/24V, 15 Watts, 4x2.5 mm²", "12V|24V|15 Watts|2.5 mm²"},
        {"3/8\" and 5' and 10%", "3/8\"|5'|10%"},
        {"8 AWG, 8AWG", "8 AWG|8AWG"},
        {"20 fl oz at 20" NBSP "deg" NBSP "C", "20 fl oz|20 deg"},
        {"40C, 40 C, -5–10C", "40 degC|40 degC|-5 to 10 degC"},
        {"104F, 104 F; 40 °C, 2200 uF", "104 degF|104 degF|40 °C|2200 uF"},
        {"95 nm, 95 NM, 95 n.m", "95 N.m|95 N.m|95 N.m"},
        {"70 FT LBS, 70 FT-LB, 70 LBS", "70 lbf.ft|70 lbf.ft|70 lb"},
        {"10 mkg, 60 p.s.i., 2 BAR, 12 v", "10 m.kg|60 psi|2 bar|12 V"},
        {"a 10 a fuse, 6 mms, 500 KM, 5 Kg", "10 A|6 mm|500 km|5 kg"},
        {"5 kgs, 10 MM, 6 ins, 200 KN", "5 kg|10 mm|6 in|200 kN"},
        {"4 gauge wire, 10 ga. cable, 2 gauges", "4 AWG"},
        {"30 thousandths, 4 INCHES", "30 thou|4 in"},
        {"5 V–7 V, 5 V" NBSP "feed, 5 V… “5 V”", "5 V|5 V|5 V|5 V"},
    };
    expect(list, sizeof list / sizeof list[0]);
}

static void test_names(void **state) {
    (void)state;
    static const char *const list[][2] = {
        {"M8 bolt, M8 x 1.25 bolt", ""},
        {"30-87, 1/2-20 bolt, #10 screw", ""},
        {"FR-12 A, R-134a, LT-012", ""},
        {"2 in the box, 2 in each, 5 in all", ""},
        {"in 1984, step 3 of 4, 2 bolts", ""},
        {"5 A4 sheets, V 5, item 5, A", ""},
        {"3' and 3 ' apart", "3'"},
        {"2 a side, 3 as one, 2 US bolts, 1 to N", ""},
        {"pins 4 and 5 are, 2 nuts. 6 At last", ""},
        {"in 2 places, 3 Bolts, 4 M8 bolts, 2 IN THE box", ""},
    };
    expect(list, sizeof list / sizeof list[0]);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_quantities),
        cmocka_unit_test(test_names),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

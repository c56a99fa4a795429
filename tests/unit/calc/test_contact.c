/* test_contact.c - contacts, tabs, crimps, studs. */
#include "calc/contact.h"
#include "calc/relay.h"

#include "wires.h"

static void test_contacts(void **state) {
    (void)state;
    const struct contact *c;
    size_t n = 0;
    for (; (c = contact_at(n)) != NULL; n++) {
        assert_ptr_equal(contact_find(c->name, strlen(c->name)), c);
        const struct contact_range *r[] = {&c->sound, &c->aged};
        for (size_t i = 0; i < 2; i++) {
            assert_true(0 < r[i]->low && r[i]->low <= r[i]->typical &&
                        r[i]->typical <= r[i]->high);
            assert_non_null(r[i]->source);
        }
        /* Nothing gets better with the years. */
        assert_true(c->sound.low < c->aged.low &&
                    c->sound.typical < c->aged.typical &&
                    c->sound.high < c->aged.high);
    }
    assert_int_equal(n, 15);
    assert_null(contact_find("magic", 5));
}

static void test_fuses(void **state) {
    (void)state;
    struct contact_range f = contact_fuse(10).sound;
    assert_near(f.low, 6e-3, 1e-12);
    assert_near(f.typical, 10e-3, 1e-12);
    assert_near(f.high, 15e-3, 1e-12);
    assert_true(contact_fuse(10).aged.high == f.high);
    assert_near(contact_fuse(0.5).sound.typical, 0.2, 1e-12);
    assert_true(isnan(contact_fuse(0).sound.typical));
    assert_true(isnan(contact_fuse(-1).aged.high));
    struct contact h = contact_fuse_held(20);
    assert_near(h.sound.low, 0.06 / 20 + 0.5e-3, 1e-12);
    assert_near(h.sound.typical, 0.1 / 20 + 1e-3, 1e-12);
    assert_near(h.aged.high, 0.15 / 20 + 30e-3, 1e-12);
    assert_true(isnan(contact_fuse_held(0).sound.high));
    struct contact b = contact_fuse_bolted(300);
    assert_near(b.sound.low, 0.06 / 300 + 0.1e-3, 1e-12);
    assert_near(b.sound.high, (0.15 + 0.1) / 300, 1e-12);
    assert_near(contact_fuse_bolted(30).sound.high, 0.15 / 30 + 2e-3, 1e-12);
    assert_near(b.aged.high, 0.15 / 300 + 20e-3, 1e-12);
    assert_true(isnan(contact_fuse_bolted(0).sound.high));
}

/* A 30 A relay is a 17 A lamp relay; 40 A at 12 V is 20 A at 27 V (C35). */
static void test_loads(void **state) {
    (void)state;
    assert_true(contact_load_find("resistive", 9)->share == 1);
    assert_near(contact_load_find("lamp", 4)->share * 30, 17, 1e-12);
    assert_near(contact_load_find("motor", 5)->share * 30, 17, 1e-12);
    assert_null(contact_load_find("rocket", 6));
    assert_non_null(contact_load_at(2));
    assert_null(contact_load_at(3));
    assert_true(contact_voltage_share(13.8) == 1);
    assert_true(contact_voltage_share(16) == 1);
    assert_near(contact_voltage_share(27) * 40, 20, 1e-12);
    assert_true(contact_voltage_share(32) == 0.5);
    assert_true(isnan(contact_voltage_share(48)));
}

static void test_relays(void **state) {
    (void)state;
    assert_ptr_equal(relay_coil_for(16), relay_coil_for(12));
    assert_ptr_equal(relay_coil_for(16.1), relay_coil_for(32));
    assert_true(relay_coil_for(12)->nominal == 12);
    assert_true(relay_coil_for(28)->nominal == 24);
    assert_null(relay_coil_for(32.1));
}

/* UL 310 rows are compared in test_reference.c; here the look-up itself. */
static void test_tabs(void **state) {
    (void)state;
    const char *row;
    const struct tab *big = tab_find("6.3 mm", 6);
    assert_ptr_equal(tab_find("0.250 in", 8), big);
    assert_null(tab_find("7 mm", 4));
    assert_null(tab_at(5));
    assert_true(tab_current(big, awg("10 AWG"), false, &row) == 24);
    assert_string_equal(row, "10 AWG");
    assert_true(tab_current(big, awg("10 AWG"), true, &row) == 48);
    /* Larger gauges have no figure; SAE 12 has less copper than 12 AWG. */
    assert_true(isnan(tab_current(big, awg("8 AWG"), false, &row)));
    assert_null(row);
    const struct wire_size *sae = wire("SAE 12", WIRE_SAE);
    assert_true(tab_current(big, sae, false, &row) == 15);
    assert_string_equal(row, "14 AWG");
    assert_true(
        isnan(tab_current(big, wire("0.22 mm2", WIRE_ISO6722), false, &row)));
    assert_true(
        tab_current(tab_find("4.8 mm", 6), awg("14 AWG"), false, &row) != 15);
    assert_non_null(tab_source());
}

static void test_crimps(void **state) {
    (void)state;
    static const struct {
        const char *gauge, *colour;
    } row[] = {{"26 AWG", "clear or small yellow"},
               {"22 AWG", "red"},
               {"20 AWG", "red"},
               {"18 AWG", "red"},
               {"16 AWG", "blue"},
               {"14 AWG", "blue"},
               {"12 AWG", "yellow"},
               {"10 AWG", "yellow"},
               {"8 AWG", "large red"}};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
        assert_string_equal(crimp_for(awg(row[i].gauge))->colour,
                            row[i].colour);
    assert_null(crimp_for(awg("6 AWG")));
    assert_null(crimp_for(awg("30 AWG")));
    assert_string_equal(crimp_for(wire("1 mm2", WIRE_ISO6722))->colour, "red");
    assert_string_equal(crimp_for(wire("2.5 mm2", WIRE_ISO6722))->colour,
                        "blue");
    assert_string_equal(crimp_for(wire("6 mm2", WIRE_ISO6722))->colour,
                        "yellow");
    for (size_t i = 1; crimp_at(i); i++)
        assert_true(crimp_at(i)->over == crimp_at(i - 1)->upto);
}

static void test_pull(void **state) {
    (void)state;
    struct pull p;
    assert_true(crimp_pull(PULL_UL486A, awg("18 AWG"), &p));
    assert_near(p.force, 20 * 4.4482216152605, 1e-12);
    assert_true(p.verified);
    assert_true(crimp_pull(PULL_AS7928, awg("18 AWG"), &p)); /* C20 */
    assert_near(p.force, 38 * 4.4482216152605, 1e-12);
    assert_true(crimp_pull(PULL_AS7928, awg("8 AWG"), &p) && !p.verified);
    assert_false(crimp_pull(PULL_UL486A, awg("3 AWG"), &p));
    assert_false(crimp_pull(PULL_UL486A, wire("SAE 18", WIRE_SAE), &p));
    assert_true(crimp_pull(PULL_IEC60352, wire("3 mm2", WIRE_ISO6722), &p));
    assert_true(p.force == 230 && !p.verified);
    assert_string_equal(p.row, "2.5 mm2");
    assert_true(crimp_pull(PULL_IEC60352, awg("12 AWG"), &p));
    assert_string_equal(p.row, "3.3 mm2");
    assert_true(crimp_pull(PULL_IEC60352, awg("8 AWG"), &p));
    assert_string_equal(p.row, "8.4 mm2");
    assert_false(crimp_pull(PULL_IEC60352, awg("6 AWG"), &p));
    for (int s = 0; s < PULL_STANDARDS; s++)
        assert_non_null(pull_standard_name((enum pull_standard)s));
}

/* Terminal-board maker's table in the reference: M6 63 A through, 125 clamped.
 */
static void test_studs(void **state) {
    (void)state;
    const struct stud *m6 = stud_find("M6", 2);
    assert_true(m6->through == 63 && m6->clamped == 125);
    assert_near(m6->hole, 6.5e-3, 1e-12);
    double last = 0;
    size_t n = 0;
    for (; stud_at(n); n++) {
        const char *name = stud_at(n)->name;
        assert_ptr_equal(stud_find(name, strlen(name)), stud_at(n));
        assert_true(stud_at(n)->hole > last);
        last = stud_at(n)->hole;
        if (!isnan(stud_at(n)->through))
            assert_true(stud_at(n)->through < stud_at(n)->clamped);
    }
    assert_int_equal(n, 8);
    assert_null(stud_find("M7", 2));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_contacts), cmocka_unit_test(test_fuses),
        cmocka_unit_test(test_loads),    cmocka_unit_test(test_tabs),
        cmocka_unit_test(test_relays),   cmocka_unit_test(test_crimps),
        cmocka_unit_test(test_pull),     cmocka_unit_test(test_studs),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

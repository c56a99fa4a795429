/* test_tables.c - every figure of every table, against
 * tests/reference/tables.txt.
 *
 * A guard of the transcription: whoever changes a table must read the new
 * figure in its source and change the line of tables.txt too. The run writes
 * what the tables hold now to the file named by BAYLEAF_TABLES. */
#include "calc/ampacity.h"
#include "calc/bolt_torque.h"
#include "calc/conductor.h"
#include "calc/contact.h"
#include "calc/fuse.h"
#include "calc/galvanic.h"
#include "calc/heating.h"
#include "calc/hole.h"
#include "calc/pattern.h"
#include "calc/relay.h"
#include "calc/screw.h"
#include "calc/seat.h"
#include "calc/strip.h"

#include "joints.h"
#include "wires.h"

static void list_sizes(FILE *f) {
    for (int y = 0; y < WIRE_SYSTEMS; y++) {
        const struct wire_size *s;
        for (size_t i = 0; (s = size_at((enum wire_system)y, i)); i++) {
            fprintf(f, "size | %s | %s | %s | %.10g mm2 | %s | %s",
                    size_system_name(s->system), s->name, s->label,
                    s->area * 1e6, s->usual ? "usual" : "-", s->source);
            for (int m = 0; m < MATERIALS; m++) {
                struct resistance r = {.nominal = NAN};
                bool made = conductor_resistance(s, (enum material)m, &r);
                if (made)
                    fprintf(f, " | %s %.10g to %.10g ohm/km",
                            material_name((enum material)m), r.nominal * 1e3,
                            r.most * 1e3);
            }
            fprintf(f, "\n");
        }
    }
}

/* One line a size that has a row: the row, the figure of each column, factors.
 */
static void list_ampacity(FILE *f, enum ampacity_table t, enum material m,
                          const struct wire_size *s) {
    static const double columns[] = {60, 70,  75,  80,  85,
                                     90, 105, 125, 150, 200};
    bool begun = false;
    for (size_t c = 0; c < sizeof columns / sizeof columns[0]; c++) {
        struct ampacity_use use = {t, s, m, CELSIUS(columns[c]), 5, true};
        struct ampacity a;
        const char *why;
        if (!ampacity_find(&use, &a, &why))
            continue;
        if (!begun)
            fprintf(f, "ampacity | %s | %s | %s | %s%s | %g",
                    ampacity_table_name(t), material_name(m), s->label, a.row,
                    a.verified ? "" : "?", a.bundle);
        begun = true;
        fprintf(f, " | %g: %g %g", columns[c], a.amp, a.engine);
    }
    if (begun)
        fprintf(f, "\n");
}

static void list_ampacities(FILE *f) {
    for (int t = 0; t < AMPACITY_TABLES; t++)
        for (int m = 0; m < MATERIALS; m += MATERIALS - 1)
            for (int y = WIRE_AWG_STRANDED; y < WIRE_SYSTEMS; y++)
                for (size_t i = 0; size_at((enum wire_system)y, i); i++)
                    list_ampacity(f, (enum ampacity_table)t, (enum material)m,
                                  size_at((enum wire_system)y, i));
}

static void list_fuses(FILE *f) {
    const struct fuse_style *s;
    for (size_t i = 0; (s = fuse_style_at(i)); i++) {
        fprintf(f,
                "fuse | %s | %s | %g A at %g V (%s) | %g /K (%s) | %g to %g "
                "K (%s) | %s\n",
                s->name, s->form, s->interrupt, s->interrupt_volt,
                s->interrupt_source, s->per_kelvin, s->per_kelvin_source,
                s->coldest, s->hottest, s->ambient_source, s->source);
        for (size_t k = 0; k < s->rating_count; k++)
            fprintf(f, "  %g A %s%s\n", s->rating[k].amp,
                    s->rating[k].colour ? s->rating[k].colour : "-",
                    s->rating[k].verified ? "" : "?");
        for (size_t k = 0; k < s->time_count; k++)
            fprintf(f, "  %g times: %g s to %g s%s (%s)\n", s->time[k].multiple,
                    s->time[k].shortest, s->time[k].longest,
                    s->time_verified ? "" : "?", s->time_source);
    }
    for (size_t i = 0; fuse_rule_at(i); i++)
        fprintf(f, "fuse rule | %s | %g below %g V | %s\n",
                fuse_rule_at(i)->name, fuse_rule_at(i)->share,
                fuse_rule_at(i)->below_volt, fuse_rule_at(i)->source);
    for (size_t i = 0; fuse_place_at(i); i++)
        fprintf(f, "fuse place | %s | %s | %.10g m | %s | %s\n",
                fuse_place_at(i)->at_battery ? "battery" : "other",
                fuse_place_at(i)->sheathed ? "sheathed" : "bare",
                fuse_place_at(i)->most, fuse_place_at(i)->words,
                fuse_place_at(i)->source);
}

static void list_contacts(FILE *f) {
    for (size_t i = 0; contact_at(i); i++)
        for (int aged = 0; aged < 2; aged++) {
            const struct contact *c = contact_at(i);
            const struct contact_range *r = aged ? &c->aged : &c->sound;
            fprintf(f, "contact | %s, %s | %g to %g to %g ohm | %s\n", c->name,
                    aged ? "aged" : "sound", r->low, r->typical, r->high,
                    r->source);
        }
    for (size_t i = 0; contact_load_at(i); i++)
        fprintf(f, "contact load | %s | %.10g | %s\n", contact_load_at(i)->kind,
                contact_load_at(i)->share, contact_load_at(i)->source);
    for (double volt = 12; relay_coil_for(volt); volt += 12) {
        const struct relay_coil *k = relay_coil_for(volt);
        fprintf(f, "relay | %g V | %g to %g to %g ohm | %g V | %g V | %s\n",
                k->nominal, k->resistance.low, k->resistance.typical,
                k->resistance.high, k->operates, k->releases, k->source);
    }
    for (size_t i = 0; stud_at(i); i++)
        fprintf(f, "stud | %s | %g A through | %g A clamped | %g m | %s\n",
                stud_at(i)->name, stud_at(i)->through, stud_at(i)->clamped,
                stud_at(i)->hole, stud_at(i)->source);
    for (size_t i = 0; crimp_at(i); i++)
        fprintf(f, "crimp | %s | %s | %g to %g m2 | %s\n", crimp_at(i)->colour,
                crimp_at(i)->gauges, crimp_at(i)->over, crimp_at(i)->upto,
                crimp_at(i)->source);
    for (int y = 0; y < WIRE_SYSTEMS; y++) {
        const struct wire_size *s;
        for (size_t i = 0; (s = size_at((enum wire_system)y, i)); i++) {
            fprintf(f, "terminals | %s", s->label);
            for (size_t t = 0; tab_at(t); t++) {
                const char *row;
                double steady = tab_current(tab_at(t), s, false, &row);
                if (row)
                    fprintf(f, " | %s (%s) %s %g %g A", tab_at(t)->name,
                            tab_at(t)->inch, row, steady,
                            tab_current(tab_at(t), s, true, &row));
            }
            for (int p = 0; p < PULL_STANDARDS; p++) {
                struct pull pull;
                if (crimp_pull((enum pull_standard)p, s, &pull))
                    fprintf(f, " | %s %s%s %.10g N (%s)",
                            pull_standard_name((enum pull_standard)p), pull.row,
                            pull.verified ? "" : "?", pull.force, pull.source);
            }
            fprintf(f, " | %s\n",
                    crimp_for(s) ? crimp_for(s)->colour : "no crimp");
        }
    }
    for (size_t i = 0; insulation_at(i); i++)
        fprintf(f, "insulation | %s | %g to %g K | %s\n",
                insulation_at(i)->name, insulation_at(i)->rated,
                insulation_at(i)->limit, insulation_at(i)->source);
    for (size_t i = 0; metal_at(i); i++)
        fprintf(f, "metal | %s%s | %g V | group %c\n", metal_at(i)->name,
                metal_at(i)->verified ? "" : "?", metal_at(i)->index,
                metal_at(i)->group ? metal_at(i)->group : '-');
    for (size_t i = 0; exposure_at(i); i++)
        fprintf(f, "exposure | %s | %g V | %s\n", exposure_at(i)->name,
                exposure_at(i)->most, exposure_at(i)->source);
}

/* All that belongs to one thread. */
static void list_thread(FILE *f, const char *text) {
    struct thread t;
    if (thread_read(text, strlen(text), &t) != THREAD_FOUND)
        return;
    struct thread_limits l = {NAN, NAN, NAN, NAN};
    struct bolt_torque b;
    bool from_table;
    const char *drill, *source;
    thread_limits(&t, &l);
    fprintf(f,
            "thread | %s | d %.8g P %.8g d2 %.8g d3 %.8g D1 %.8g As %.8g mm | "
            "limits %.7g %.7g %.7g %.7g",
            t.name, t.diameter * 1e3, t.pitch * 1e3, t.pitch_diameter * 1e3,
            t.root * 1e3, t.minor * 1e3, t.stress_area * 1e6,
            l.external_major_min * 1e3, l.external_pitch_min * 1e3,
            l.internal_pitch_max * 1e3, l.internal_minor_max * 1e3);
    fprintf(f, " | head %.7g", torque_bearing(&t, &from_table) * 1e3);
    fprintf(f, " | tap %.7g", hole_tap(&t, &drill, &source) * 1e3);
    fprintf(f, " %s | holes", drill ? drill : "-");
    for (int h = 0; h < HOLE_FITS; h++)
        fprintf(f, " %.7g",
                hole_clearance(&t, (enum hole_fit)h, &source) * 1e3);
    if (!isnan(prevailing_least(&t)))
        fprintf(f, " | drag %.7g N m", prevailing_least(&t));
    for (int shear = 0; shear < 2; shear++)
        if (bolt_torque_faa(&t, shear, &b))
            fprintf(f, " | %.7g %.7g %.7g N m", b.low, b.high, b.most);
    fprintf(f, "\n");
}

static void list_threads(FILE *f) {
    static const double pitch[] = {
        0,    0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.6, 0.7, 0.75, 0.8, 1,
        1.25, 1.5, 1.75, 2,   2.5,  3,   3.5,  4,   4.5, 5,   5.5,  6};
    char text[32];
    for (int tenths = 9; tenths <= 650; tenths++)
        for (size_t p = 0; p < sizeof pitch / sizeof pitch[0]; p++) {
            snprintf(text, sizeof text, p ? "M%gx%g" : "M%g", tenths / 10.0,
                     pitch[p]);
            list_thread(f, text);
        }
    for (int gauge = 0; gauge <= 13; gauge++)
        for (int n = 1; n <= 80; n++) {
            snprintf(text, sizeof text, "#%d-%d", gauge, n);
            list_thread(f, text);
        }
    for (int sixteenths = 3; sixteenths <= 41; sixteenths++)
        for (int halves = 2; halves <= 64; halves++) {
            snprintf(text, sizeof text, "%.4f-%g", sixteenths / 16.0,
                     halves / 2.0);
            list_thread(f, text);
        }
}

static void list_bolts(FILE *f) {
    for (size_t i = 0; grade_at(i); i++) {
        const struct grade *g = grade_at(i);
        fprintf(f,
                "grade | %s%s | over %.7g to %.7g mm | Rm %.8g Re %.8g Sp %.8g "
                "MPa | %s %s | %s\n",
                g->name, g->verified ? "" : "?", g->over * 1e3, g->upto * 1e3,
                g->tensile / 1e6, g->yield / 1e6, g->proof / 1e6,
                g->metric ? "metric" : "inch", g->stainless ? "stainless" : "-",
                g->source);
    }
    static const char *const nuts[] = {
        "5",     "6",     "8",     "9",     "10",    "12",    "SAE 2", "SAE 5",
        "SAE 8", "A2-50", "A2-70", "A2-80", "A4-50", "A4-70", "A4-80"};
    for (size_t i = 0; i < sizeof nuts / sizeof nuts[0]; i++) {
        bool inch = strncmp(nuts[i], "SAE", 3) == 0;
        const struct nut *n = nut_find(nuts[i], strlen(nuts[i]), inch);
        fprintf(f, "nut | %s | %.8g MPa | %s\n", n->name, n->stress / 1e6,
                n->source);
    }
    for (size_t i = 0; nut_factor_at(i); i++)
        fprintf(
            f, "K | %s%s | %g %g %g | %s | %s\n", nut_factor_at(i)->condition,
            nut_factor_at(i)->verified ? "" : "?", nut_factor_at(i)->low,
            nut_factor_at(i)->nominal, nut_factor_at(i)->high,
            nut_factor_at(i)->galls ? "galls" : "-", nut_factor_at(i)->source);
    for (size_t i = 0; friction_at(i); i++)
        fprintf(f, "friction | %s | %g %g | %s | %s\n", friction_at(i)->name,
                friction_at(i)->low, friction_at(i)->high,
                friction_at(i)->surfaces, friction_at(i)->source);
    for (size_t i = 0; tightening_at(i); i++)
        fprintf(f, "tightening | %s | -%g +%g | %s\n", tightening_at(i)->name,
                tightening_at(i)->minus, tightening_at(i)->plus,
                tightening_at(i)->source);
    for (size_t i = 0; engagement_at(i); i++)
        fprintf(f,
                "engagement | %s | %g d | torque %g | %s | %g Pa x %g | %s\n",
                engagement_at(i)->into, engagement_at(i)->diameters,
                engagement_at(i)->torque, engagement_at(i)->source,
                engagement_at(i)->shear, engagement_at(i)->use,
                engagement_at(i)->shear_source);
    for (size_t i = 0; seat_at(i); i++)
        fprintf(f, "seat | %s | %g MPa | %s\n", seat_at(i)->material,
                seat_at(i)->pressure / 1e6, seat_at(i)->source);
    for (int count = 1; count <= 18; count++)
        for (int p = 0; p < PATTERNS; p++) {
            int order[PATTERN_MOST];
            if (!pattern_order((enum pattern)p, count, order))
                continue;
            fprintf(f, "pattern | %s", pattern_name((enum pattern)p));
            for (int i = 0; i < count; i++)
                fprintf(f, " %d", order[i]);
            fprintf(f, "\n");
        }
    for (size_t i = 0; tapping_screw_at(i); i++) {
        const struct tapping_screw *s = tapping_screw_at(i);
        fprintf(f, "screw | %s %s | %.7g %.7g %.7g mm | %g %g %g N m | %s |",
                s->name, s->former ? s->former : "-", s->diameter * 1e3,
                s->pitch * 1e3, s->root * 1e3, s->breaking, s->low, s->high,
                s->source);
        double last = NAN;
        for (int hundredths = 20; hundredths <= 500; hundredths++) {
            double hole = screw_pilot_sheet(s, hundredths * 1e-5) * 1e3;
            if (!(fabs(hole - last) < 1e-9) && !(isnan(hole) && isnan(last)))
                fprintf(f, " %g: %.3g", hundredths / 100.0, hole);
            last = hole;
        }
        fprintf(
            f, " | %.3g %.3g %.5g %.5g\n", screw_pilot_plastic(s, true) * 1e3,
            screw_pilot_plastic(s, false) * 1e3,
            screw_pilot_inch(s, true) * 1e3, screw_pilot_inch(s, false) * 1e3);
    }
}

static void list_units(FILE *f) {
    for (size_t i = 0; unit_at(i); i++) {
        const struct unit *u = unit_at(i);
        char name[UNIT_TEXT];
        fprintf(f, "unit | %s | %s | %.15g %.15g | %d | %s", u->name, u->label,
                u->factor, u->offset, (int)u->system, dim_name(u->dim, name));
        for (int p = 0; p < DIM_BASES; p++)
            fprintf(f, " %d", u->dim.power[p]);
        const struct unit *si = unit_usual(u->dim, UNIT_SI);
        const struct unit *us = unit_usual(u->dim, UNIT_CUSTOMARY);
        fprintf(f, " | %s %s\n", si ? si->name : "-", us ? us->name : "-");
    }
    const struct unit *of;
    for (size_t i = 0; unit_spelling_at(i, &of); i++)
        fprintf(f, "spelling | %s | %s\n", unit_spelling_at(i, &of), of->name);
}

static void test_tables(void **state) {
    (void)state;
    char *text = NULL;
    size_t len = 0;
    FILE *f = open_memstream(&text, &len);
    list_units(f);
    list_sizes(f);
    list_ampacities(f);
    list_fuses(f);
    list_contacts(f);
    list_threads(f);
    list_bolts(f);
    fclose(f);
    const char *path = getenv("BAYLEAF_TABLES");
    if (path) {
        FILE *out = fopen(path, "w");
        assert_non_null(out);
        fwrite(text, 1, len, out);
        fclose(out);
    }
    FILE *wanted = fopen("tests/reference/tables.txt", "r");
    assert_non_null(wanted);
    static char line[2000];
    const char *at = text;
    int n = 0;
    while (fgets(line, sizeof line, wanted)) {
        n++;
        size_t bytes = strcspn(at, "\n") + 1;
        if (strlen(line) != bytes || memcmp(line, at, bytes) != 0)
            fail_msg("tables.txt:%d: %.*s", n, (int)bytes, at);
        at += bytes;
    }
    fclose(wanted);
    assert_true(n > 1000 && *at == '\0');
    free(text);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_tables),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

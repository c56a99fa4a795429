/* crimp.c - quick-connect tabs and crimp terminals by wire size.
 *
 * The tables are by gauge. An AWG size finds its own row; for a size of another
 * system the largest row not larger in area stands, except pull-out force,
 * where a smaller wire's force would prove nothing about a larger one. */
#include "calc/contact.h"
#include "calc/word.h"

#include <math.h>
#include <string.h>

#define MM2 1e-6
#define LBF 4.4482216152605

static bool is_awg(const struct wire_size *s) {
    return s->system == WIRE_AWG_SOLID || s->system == WIRE_AWG_STRANDED;
}

/* Area of "16 AWG". */
static double gauge_area(const char *name) {
    for (size_t i = 0; size_at(WIRE_AWG_SOLID, i); i++)
        if (strcmp(size_at(WIRE_AWG_SOLID, i)->name, name) == 0)
            return size_at(WIRE_AWG_SOLID, i)->area;
    return NAN;
}

/* UL 310 test currents: steady, and heat-cycling. Source: two terminal makers'
 * guides quoting UL 310. Not the 15/20/25/30 A for 16/14/12/10 AWG of common
 * charts. */
struct tab_row {
    const char *gauge;
    double steady, cycling; /* A */
};
static const struct tab_row tab_250[] = {
    {"22 AWG", 3, 6},   {"20 AWG", 4, 8},   {"18 AWG", 7, 14},
    {"16 AWG", 10, 20}, {"14 AWG", 15, 30}, {"12 AWG", 20, 40},
    {"10 AWG", 24, 48},
};
static const struct tab_row tab_110[] = {
    {"22 AWG", 2, 4},
    {"20 AWG", 3, 6},
    {"18 AWG", 4, 8},
    {"16 AWG", 5, 10},
};

static const struct tab tabs[] = {
    {"6.3 mm", "0.250 in"}, {"5.2 mm", "0.205 in"}, {"4.8 mm", "0.187 in"},
    {"3.2 mm", "0.125 in"}, {"2.8 mm", "0.110 in"},
};
enum { TABS = sizeof tabs / sizeof tabs[0] };
/* Rows of each; the middle ones share the first four of 0.250 in. */
static const struct {
    const struct tab_row *row;
    size_t count;
} tab_rows[TABS] = {
    {tab_250, 7}, {tab_250, 4}, {tab_250, 4}, {tab_110, 4}, {tab_110, 4},
};

const struct tab *tab_find(const char *name, size_t len) {
    for (size_t i = 0; i < TABS; i++)
        if (word_is(name, len, tabs[i].name) ||
            word_is(name, len, tabs[i].inch))
            return &tabs[i];
    return NULL;
}

const struct tab *tab_at(size_t index) {
    return index < TABS ? &tabs[index] : NULL;
}

double tab_current(const struct tab *t, const struct wire_size *s,
                   bool intermittent, const char **row) {
    size_t which = (size_t)(t - tabs);
    const struct tab_row *best = NULL;
    for (size_t i = 0; i < tab_rows[which].count; i++) {
        const struct tab_row *r = &tab_rows[which].row[i];
        if (is_awg(s) ? strcmp(r->gauge, s->name) == 0
                      : gauge_area(r->gauge) <= s->area)
            best = r;
    }
    *row = best ? best->gauge : NULL;
    if (!best)
        return NAN;
    return intermittent ? best->cycling : best->steady;
}

const char *tab_source(void) {
    return "UL 310 test currents, as two terminal makers' guides quote them";
}

/* Colour code: gauges from a trade text; areas from memory of DIN 46245 and
 * makers' sheets. Makers differ on red: 22 to 16 or 22 to 18 AWG; 16 AWG is
 * given to blue here, where all agree. */
static const struct crimp crimps[] = {
    {"clear or small yellow", "26 to 24 AWG", 0.1 * MM2, 0.25 * MM2,
     "from memory: SAE AS7928, makers' sheets"},
    {"red", "22 to 18 AWG", 0.25 * MM2, 1.04 * MM2,
     "trade text; areas from memory: DIN 46245"},
    {"blue", "16 to 14 AWG", 1.04 * MM2, 2.63 * MM2,
     "trade text; areas from memory: DIN 46245"},
    {"yellow", "12 to 10 AWG", 2.63 * MM2, 6.64 * MM2,
     "trade text; areas from memory: DIN 46245"},
    {"large red", "8 AWG", 6.64 * MM2, 10.5 * MM2, "from memory: MS25036"},
};
enum { CRIMPS = sizeof crimps / sizeof crimps[0] };

const struct crimp *crimp_at(size_t index) {
    return index < CRIMPS ? &crimps[index] : NULL;
}

const struct crimp *crimp_for(const struct wire_size *s) {
    for (size_t i = 0; i < CRIMPS; i++)
        if (s->area > crimps[i].over && s->area <= crimps[i].upto)
            return &crimps[i];
    return NULL;
}

/* Pull-out force. UL 486A and AS7928: lbf, a terminal maker's sheets; AS7928
 * from 8 AWG up from memory. IEC 60352-2 Table 1: N by mm2, from memory. */
struct pull_row {
    const char *size;
    double force; /* lbf, or N for IEC */
    bool verified;
};
static const struct pull_row ul486a[] = {
    {"26 AWG", 3, true},  {"24 AWG", 5, true},    {"22 AWG", 8, true},
    {"20 AWG", 13, true}, {"18 AWG", 20, true},   {"16 AWG", 30, true},
    {"14 AWG", 50, true}, {"12 AWG", 70, true},   {"10 AWG", 80, true},
    {"8 AWG", 90, true},  {"6 AWG", 100, true},   {"4 AWG", 140, true},
    {"2 AWG", 180, true}, {"1/0 AWG", 250, true}, {"2/0 AWG", 300, true},
};
static const struct pull_row as7928[] = {
    {"26 AWG", 7, true},   {"24 AWG", 10, true},    {"22 AWG", 15, true},
    {"20 AWG", 19, true},  {"18 AWG", 38, true},    {"16 AWG", 50, true},
    {"14 AWG", 70, true},  {"12 AWG", 110, true},   {"10 AWG", 150, true},
    {"8 AWG", 225, false}, {"6 AWG", 300, false},   {"4 AWG", 400, false},
    {"2 AWG", 550, false}, {"1/0 AWG", 700, false}, {"2/0 AWG", 750, false},
};
static const struct {
    const char *row;
    double area, force; /* m2, N */
} iec60352[] = {
    {"0.05 mm2", 0.05 * MM2, 6},  {"0.08 mm2", 0.08 * MM2, 11},
    {"0.12 mm2", 0.12 * MM2, 15}, {"0.14 mm2", 0.14 * MM2, 18},
    {"0.22 mm2", 0.22 * MM2, 28}, {"0.25 mm2", 0.25 * MM2, 32},
    {"0.32 mm2", 0.32 * MM2, 40}, {"0.5 mm2", 0.5 * MM2, 60},
    {"0.75 mm2", 0.75 * MM2, 85}, {"0.82 mm2", 0.82 * MM2, 90},
    {"1 mm2", 1.0 * MM2, 108},    {"1.3 mm2", 1.3 * MM2, 135},
    {"1.5 mm2", 1.5 * MM2, 150},  {"2.1 mm2", 2.1 * MM2, 200},
    {"2.5 mm2", 2.5 * MM2, 230},  {"3.3 mm2", 3.3 * MM2, 275},
    {"4 mm2", 4.0 * MM2, 310},    {"5.3 mm2", 5.3 * MM2, 355},
    {"6 mm2", 6.0 * MM2, 360},    {"8.4 mm2", 8.4 * MM2, 370},
    {"10 mm2", 10.0 * MM2, 380},
};
enum { IEC_ROWS = sizeof iec60352 / sizeof iec60352[0] };

static const char *const pull_name[PULL_STANDARDS] = {
    [PULL_UL486A] = "UL 486A",
    [PULL_AS7928] = "SAE AS7928",
    [PULL_IEC60352] = "IEC 60352-2",
};

const char *pull_standard_name(enum pull_standard p) {
    return pull_name[p];
}

static bool iec_pull(const struct wire_size *s, struct pull *out) {
    *out = (struct pull){.source = "from memory: IEC 60352-2 Table 1"};
    /* The largest row not larger; beyond 10.5 mm2 the table has ended. */
    if (s->area > 10.5 * MM2)
        return false;
    for (size_t i = 0; i < IEC_ROWS; i++) {
        if (iec60352[i].area <= s->area * 1.0095) {
            out->row = iec60352[i].row;
            out->force = iec60352[i].force;
        }
    }
    return out->row != NULL;
}

bool crimp_pull(enum pull_standard p, const struct wire_size *s,
                struct pull *out) {
    if (p == PULL_IEC60352)
        return iec_pull(s, out);
    const struct pull_row *row = p == PULL_UL486A ? ul486a : as7928;
    size_t count = sizeof ul486a / sizeof ul486a[0];
    for (size_t i = 0; is_awg(s) && i < count; i++) {
        if (strcmp(row[i].size, s->name) != 0)
            continue;
        out->force = row[i].force * LBF;
        out->row = row[i].size;
        out->verified = row[i].verified;
        out->source = !row[i].verified ? "from memory: MIL-T-7928 tensile table"
                      : p == PULL_UL486A
                          ? "UL 486A, as a terminal maker's sheets quote it"
                          : "SAE AS7928, as a terminal maker's sheets quote it";
        return true;
    }
    return false;
}

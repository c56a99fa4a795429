/* ampacity_table.c - published ampacities, A.
 *
 * A row holds the gauge or nominal area that names it, its area in m2 (by which
 * a size of another system finds it), and a figure for each insulation column
 * of its table; 0 where the table has none. */
#include "calc/ampacity_table.h"

/* clang-format off */

/* 33 CFR 183.425 Table 5, copper, 30 degC, columns 60 75 80 90 105 125 200 degC.
 * Source: public copy of the Code; the 105 degC column also in a boat supplier's
 * page. */
static const struct ampacity_row cfr33[] = {
    {"18 AWG", 0, {10, 10, 15, 20, 20, 25, 25}, true},
    {"16 AWG", 0, {15, 15, 20, 25, 25, 30, 35}, true},
    {"14 AWG", 0, {20, 20, 25, 30, 35, 40, 45}, true},
    {"12 AWG", 0, {25, 25, 35, 40, 45, 50, 55}, true},
    {"10 AWG", 0, {40, 40, 50, 55, 60, 70, 70}, true},
    {"8 AWG", 0, {55, 65, 70, 70, 80, 90, 100}, true},
    {"6 AWG", 0, {80, 95, 100, 100, 120, 125, 135}, true},
    {"4 AWG", 0, {105, 125, 130, 135, 160, 170, 180}, true},
    {"3 AWG", 0, {120, 145, 150, 155, 180, 195, 210}, true},
    {"2 AWG", 0, {140, 170, 175, 180, 210, 225, 240}, true},
    {"1 AWG", 0, {165, 195, 210, 210, 245, 265, 280}, true},
    {"1/0 AWG", 0, {195, 230, 245, 245, 285, 305, 325}, true},
    {"2/0 AWG", 0, {225, 265, 285, 285, 330, 355, 370}, true},
    {"3/0 AWG", 0, {260, 310, 330, 330, 385, 410, 430}, true},
    {"4/0 AWG", 0, {300, 360, 385, 385, 445, 475, 510}, true},
};

/* NFPA 70 Table 310.16, copper, 30 degC, at most 3 conductors, columns 60 75 90
 * degC; editions 2014 to 2023. Source: 10, 8, 6, 4, 2 and 1/0 to 4/0 AWG from
 * public copies of the table; the others from memory, since the copies showed an
 * older edition: before 2011 14 and 12 AWG had 20 and 25 A at 60 degC, before 2014
 * 3 and 1 AWG 110 and 150 A at 90 degC. */
static const struct ampacity_row nec_copper[] = {
    {"18 AWG", 0, {0, 0, 14}, false},
    {"16 AWG", 0, {0, 0, 18}, false},
    {"14 AWG", 0, {15, 20, 25}, false},
    {"12 AWG", 0, {20, 25, 30}, false},
    {"10 AWG", 0, {30, 35, 40}, true},
    {"8 AWG", 0, {40, 50, 55}, true},
    {"6 AWG", 0, {55, 65, 75}, true},
    {"4 AWG", 0, {70, 85, 95}, true},
    {"3 AWG", 0, {85, 100, 115}, false},
    {"2 AWG", 0, {95, 115, 130}, true},
    {"1 AWG", 0, {110, 130, 145}, false},
    {"1/0 AWG", 0, {125, 150, 170}, true},
    {"2/0 AWG", 0, {145, 175, 195}, true},
    {"3/0 AWG", 0, {165, 200, 225}, true},
    {"4/0 AWG", 0, {195, 230, 260}, true},
};

/* The same table, aluminium. From memory: NFPA 70 Table 310.16 (2017 to 2023). */
static const struct ampacity_row nec_aluminium[] = {
    {"12 AWG", 0, {15, 20, 25}, false},
    {"10 AWG", 0, {25, 30, 35}, false},
    {"8 AWG", 0, {35, 40, 45}, false},
    {"6 AWG", 0, {40, 50, 55}, false},
    {"4 AWG", 0, {55, 65, 75}, false},
    {"3 AWG", 0, {65, 75, 85}, false},
    {"2 AWG", 0, {75, 90, 100}, false},
    {"1 AWG", 0, {85, 100, 115}, false},
    {"1/0 AWG", 0, {100, 120, 135}, false},
    {"2/0 AWG", 0, {115, 135, 150}, false},
    {"3/0 AWG", 0, {130, 155, 175}, false},
    {"4/0 AWG", 0, {150, 180, 205}, false},
};

/* FAA AC 43.13-1B CHG 1 (2001) Table 11-9, tin-plated copper, columns 105 150 200
 * degC: 70 degC ambient, bundle of 33 or more wires (24 to 10 AWG) or 9 (8 AWG and
 * larger), at most 20 % of the harness capacity in use, 60,000 ft. Area: the
 * table's own circular mils. Source: two agreeing copies of page 11-23. */
#define CMIL 5.0670747909749778e-10
static const struct ampacity_row ac4313_copper[] = {
    {"24 AWG", 475 * CMIL, {2.5, 4, 5}, true},
    {"22 AWG", 755 * CMIL, {3, 5, 6}, true},
    {"20 AWG", 1216 * CMIL, {4, 7, 9}, true},
    {"18 AWG", 1900 * CMIL, {6, 9, 12}, true},
    {"16 AWG", 2426 * CMIL, {7, 11, 14}, true},
    {"14 AWG", 3831 * CMIL, {10, 14, 18}, true},
    {"12 AWG", 5874 * CMIL, {13, 19, 25}, true},
    {"10 AWG", 9354 * CMIL, {17, 26, 32}, true},
    {"8 AWG", 16983 * CMIL, {38, 57, 71}, true},
    {"6 AWG", 26818 * CMIL, {50, 76, 97}, true},
    {"4 AWG", 42615 * CMIL, {68, 103, 133}, true},
    {"2 AWG", 66500 * CMIL, {95, 141, 179}, true},
    {"1 AWG", 81700 * CMIL, {113, 166, 210}, true},
    {"1/0 AWG", 104500 * CMIL, {128, 192, 243}, true},
    {"2/0 AWG", 133000 * CMIL, {147, 222, 285}, true},
    {"3/0 AWG", 166500 * CMIL, {172, 262, 335}, true},
    {"4/0 AWG", 210900 * CMIL, {204, 310, 395}, true},
};

/* Table 11-10, aluminium, columns 105 and 150 degC. From memory of page 11-24. */
static const struct ampacity_row ac4313_aluminium[] = {
    {"8 AWG", 0, {30, 45, 0}, false},
    {"6 AWG", 0, {40, 61, 0}, false},
    {"4 AWG", 0, {54, 82, 0}, false},
    {"2 AWG", 0, {76, 113, 0}, false},
    {"1 AWG", 0, {90, 133, 0}, false},
    {"1/0 AWG", 0, {102, 153, 0}, false},
    {"2/0 AWG", 0, {117, 178, 0}, false},
    {"3/0 AWG", 0, {138, 209, 0}, false},
    {"4/0 AWG", 0, {163, 248, 0}, false},
};

/* ISO 10133 Annex A, copper, 30 degC, columns 60 70 85 105 125 200 degC (85 stands
 * for "85 to 90"). From memory: ISO 10133:2000 and 2012; the same in ISO 13297. */
static const struct ampacity_row iso10133[] = {
    {"0.75 mm2", 0.75e-6, {6, 10, 12, 16, 20, 25}, false},
    {"1 mm2", 1e-6, {8, 14, 18, 20, 25, 35}, false},
    {"1.5 mm2", 1.5e-6, {12, 18, 21, 25, 30, 40}, false},
    {"2.5 mm2", 2.5e-6, {17, 25, 30, 35, 40, 45}, false},
    {"4 mm2", 4e-6, {22, 35, 40, 45, 50, 55}, false},
    {"6 mm2", 6e-6, {29, 45, 50, 60, 70, 75}, false},
    {"10 mm2", 10e-6, {40, 65, 70, 90, 100, 120}, false},
    {"16 mm2", 16e-6, {54, 90, 100, 130, 150, 170}, false},
    {"25 mm2", 25e-6, {71, 120, 140, 170, 185, 200}, false},
    {"35 mm2", 35e-6, {87, 160, 185, 210, 225, 240}, false},
    {"50 mm2", 50e-6, {105, 210, 230, 270, 300, 325}, false},
    {"70 mm2", 70e-6, {135, 265, 285, 330, 360, 375}, false},
    {"95 mm2", 95e-6, {165, 310, 330, 390, 410, 430}, false},
    {"120 mm2", 120e-6, {190, 360, 400, 450, 480, 520}, false},
    {"150 mm2", 150e-6, {220, 380, 430, 475, 520, 560}, false},
};

/* Bundle factors: fewest conductors, factor. */
static const struct ampacity_bundle boat_bundle[] = {{25, 0.4}, {7, 0.5}, {4, 0.6}, {3, 0.7}, {1, 1}};
static const struct ampacity_bundle nec_bundle[] = {{41, 0.35}, {31, 0.4}, {21, 0.45}, {10, 0.5}, {7, 0.7}, {4, 0.8}, {1, 1}};
static const struct ampacity_bundle harness_bundle[] = {{1, 1}};
static const struct ampacity_bundle iso_bundle[] = {{25, 0.5}, {7, 0.6}, {4, 0.7}, {1, 1}};

#define COUNT(a) (sizeof a / sizeof a[0])
#define ROWS(a) {a, COUNT(a)}
const struct ampacity_source ampacity_source_table[AMPACITY_TABLES] = {
    [AMPACITY_33CFR] = {
        .name = "33 CFR 183.425",
        .rated = {60, 75, 80, 90, 105, 125, 200},
        /* Note 1 of the table. Source: 105 degC from a boat supplier's page; the
         * others from memory of the Code. They are sqrt((Tc - 50)/(Tc - 30))
         * within 0.01 but for 200 degC, printed 1.00. */
        .engine = {0.58, 0.75, 0.78, 0.82, 0.85, 0.89, 1},
        .reference = 30,
        .coldest = 30,
        .copper = ROWS(cfr33),
        .bundle = boat_bundle,
        .bundle_count = COUNT(boat_bundle),
        .source = "33 CFR 183.425 Table 5",
        .bundle_source = "33 CFR 183.425 Table 5 note 2 (by ABYC practice below 50 V too)",
        .below = "the size is below 18 AWG, the smallest of 33 CFR 183.425; ampacity: AC 43.13 begins at 24 AWG",
    },
    [AMPACITY_NEC] = {
        .name = "NEC 310.16",
        .rated = {60, 75, 90},
        .reference = 30,
        .coldest = 10,
        .copper = ROWS(nec_copper),
        .aluminium = ROWS(nec_aluminium),
        .bundle = nec_bundle,
        .bundle_count = COUNT(nec_bundle),
        .source = "NFPA 70 Table 310.16, editions 2014 to 2023",
        .bundle_source = "NFPA 70 Table 310.15(C)(1), in 2014 310.15(B)(3)(a)",
        .below = "the size is below 18 AWG, the smallest of NEC 310.16; ampacity: AC 43.13 begins at 24 AWG",
    },
    [AMPACITY_AC4313] = {
        .name = "AC 43.13",
        .rated = {105, 150, 200},
        .reference = 70,
        .coldest = 70,
        .copper = ROWS(ac4313_copper),
        .aluminium = ROWS(ac4313_aluminium),
        .bundle = harness_bundle,
        .bundle_count = COUNT(harness_bundle),
        .source = "FAA AC 43.13-1B CHG 1 Tables 11-9 and 11-10: harness of many wires",
        .bundle_source = "in the figures of AC 43.13-1B Table 11-9",
        .below = "the size is below 24 AWG, the smallest of AC 43.13",
    },
    [AMPACITY_ISO10133] = {
        .name = "ISO 10133",
        .rated = {60, 70, 85, 105, 125, 200},
        /* From memory: ISO 10133 Annex A. */
        .engine = {0.58, 0.71, 0.82, 0.86, 0.89, 1},
        .reference = 30,
        .coldest = 30,
        .copper = ROWS(iso10133),
        .bundle = iso_bundle,
        .bundle_count = COUNT(iso_bundle),
        .source = "from memory: ISO 10133 Annex A",
        .bundle_source = "from memory: ISO 10133 Annex A",
        .below = "the size is below 0.75 mm2, the smallest of ISO 10133; ampacity: AC 43.13 begins at 24 AWG",
    },
};

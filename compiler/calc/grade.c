/* grade.c - strength of bolts, screws, studs and nuts by grade. */
#include "calc/grade.h"
#include "calc/word.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* clang-format off */
#define MM 1e-3
#define INCH 0.0254
#define MPA 1e6
#define KSI (4.4482216152605 / 6.4516e-7) /* 1000 lbf/in2 */

/* Metric: over, up to, mm; tensile, yield, proof, MPa.
 * Source: ISO 898-1 Table 3 (1999, 2009), two transcriptions. */
#define ISO(name, over, upto, tensile, yield, proof) \
    {name, (over) * MM, (upto) * MM, (tensile) * MPA, (yield) * MPA, \
     (proof) * MPA, true, false, true, "ISO 898-1 Table 3"}
/* Inch: over, up to, in; proof, yield, tensile, ksi. */
#define SAE(name, over, upto, proof, yield, tensile) \
    {name, (over) * INCH, (upto) * INCH, (tensile) * KSI, (yield) * KSI, \
     (proof) * KSI, false, false, true, "SAE J429 Table 1"}
/* Stainless: up to, mm; tensile, Rp0.2, MPa. The standard has no proof stress. */
#define A(name, upto, tensile, yield) \
    {name, 0, (upto) * MM, (tensile) * MPA, (yield) * MPA, (yield) * MPA, true, \
     true, true, "ISO 3506-1; class 70 and 80 up to M20 only"}

/* Below 1/4 in SAE J429 says nothing. */
#define FROM_QUARTER 0.2499

static const struct grade grades[] = {
    ISO("4.6", 0, 39, 400, 240, 225),
    ISO("4.8", 0, 16, 420, 340, 310),
    ISO("5.6", 0, 39, 500, 300, 280),
    ISO("5.8", 0, 24, 520, 420, 380),
    ISO("6.8", 0, 39, 600, 480, 440),
    ISO("8.8", 0, 16, 800, 640, 580),
    ISO("8.8", 16, 39, 830, 660, 600),
    ISO("9.8", 0, 16, 900, 720, 650),
    ISO("10.9", 0, 39, 1040, 940, 830),
    ISO("12.9", 0, 39, 1220, 1100, 970),
    SAE("SAE 1", FROM_QUARTER, 1.5, 33, 36, 60),
    SAE("SAE 2", FROM_QUARTER, 0.75, 55, 57, 74),
    SAE("SAE 2", 0.75, 1.5, 33, 36, 60),
    /* Studs only. */
    {"SAE 4", FROM_QUARTER * INCH, 1.5 * INCH, 115 * KSI, 100 * KSI, 65 * KSI, false,
     false, false, "from memory: SAE J429 Table 1"},
    SAE("SAE 5", FROM_QUARTER, 1, 85, 92, 120),
    SAE("SAE 5", 1, 1.5, 74, 81, 105),
    SAE("SAE 5.2", FROM_QUARTER, 1, 85, 92, 120),
    SAE("SAE 7", FROM_QUARTER, 1.5, 105, 115, 133),
    SAE("SAE 8", FROM_QUARTER, 1.5, 120, 130, 150),
    SAE("SAE 8.2", FROM_QUARTER, 1, 120, 130, 150),
    {"A574", 0, 0.5 * INCH, 180 * KSI, 153 * KSI, 140 * KSI, false, false, true,
     "ASTM A574"},
    {"A574", 0.5 * INCH, 4 * INCH, 170 * KSI, 153 * KSI, 135 * KSI, false, false,
     true, "ASTM A574"},
    /* No proof load is stated for A307 grade A: NAN. */
    {"A307", FROM_QUARTER * INCH, 4 * INCH, 60 * KSI, 36 * KSI, NAN, false, false,
     false, "from memory: ASTM A307"},
    A("A1-50", 39, 500, 210), A("A1-70", 20, 700, 450), A("A1-80", 20, 800, 600),
    A("A2-50", 39, 500, 210), A("A2-70", 20, 700, 450), A("A2-80", 20, 800, 600),
    A("A3-50", 39, 500, 210), A("A3-70", 20, 700, 450), A("A3-80", 20, 800, 600),
    A("A4-50", 39, 500, 210), A("A4-70", 20, 700, 450), A("A4-80", 20, 800, 600),
    A("A5-50", 39, 500, 210), A("A5-70", 20, 700, 450), A("A5-80", 20, 800, 600),
    {"A4-100", 0, 39 * MM, 1000 * MPA, 800 * MPA, 800 * MPA, true, true, false,
     "from memory: ISO 3506-1:2020"},
};
/* clang-format on */
enum { GRADES = sizeof grades / sizeof grades[0] };

const struct grade *grade_at(size_t index) {
    return index < GRADES ? &grades[index] : NULL;
}

/* "8", "SAE 8", "grade 8", "SAE J429 grade 8" are one name; so are "8.8" and
 * "class 8.8", "A574" and "ASTM A574". Bare SAE numbers meet no ISO class. */
static bool same_grade(const char *text, size_t len, const char *name) {
    static const char *const before[] = {"ASTM", "ISO", "property", "class"};
    bool sae = strncmp(name, "SAE ", 4) == 0;
    bool said = word_drop(&text, &len, "SAE");
    said = word_drop(&text, &len, "J429") || said;
    said = word_drop(&text, &len, "grade") || said;
    if (sae)
        return word_is(text, len, name + 4);
    if (said)
        return false;
    for (size_t i = 0; i < sizeof before / sizeof before[0]; i++)
        word_drop(&text, &len, before[i]);
    return word_is(text, len, name);
}

enum grade_found grade_find(const char *name, size_t len, double diameter,
                            const struct grade **out) {
    const double slack = 1e-7; /* m: sizes are read from texts */
    *out = NULL;
    for (size_t i = 0; i < GRADES; i++) {
        const struct grade *g = &grades[i];
        if (!same_grade(name, len, g->name))
            continue;
        bool first = *out == NULL;
        if (first || diameter > g->over + slack)
            *out = g;
        if (diameter > g->over + slack && diameter <= g->upto + slack)
            return GRADE_FOUND;
    }
    return *out ? GRADE_NO_SIZE : GRADE_UNREADABLE;
}

/* Nuts. From memory: ISO 898-2 (a nut of class N holds a bolt of N x 100 MPa),
 * SAE J995, ISO 3506-2. */
#define ISO_NUT(class, stress)                                                 \
    {                                                                          \
#class, (stress)*MPA, (class) * 100 * MPA, true, false,                \
            "from memory: ISO 898-2"                                           \
    }
#define SAE_NUT(name, ksi)                                                     \
    { name, (ksi)*KSI, (ksi)*KSI, false, true, "from memory: SAE J995" }
#define A_NUT(name, stress)                                                    \
    { name, (stress)*MPA, (stress)*MPA, true, true, "from memory: ISO 3506-2" }
static const struct nut nuts[] = {
    ISO_NUT(5, 500),      ISO_NUT(6, 600),       ISO_NUT(8, 800),
    ISO_NUT(9, 900),      ISO_NUT(10, 1040),     ISO_NUT(12, 1150),
    SAE_NUT("SAE 2", 90), SAE_NUT("SAE 5", 120), SAE_NUT("SAE 8", 150),
    A_NUT("A2-50", 500),  A_NUT("A2-70", 700),   A_NUT("A2-80", 800),
    A_NUT("A4-50", 500),  A_NUT("A4-70", 700),   A_NUT("A4-80", 800),
};

const struct nut *nut_find(const char *name, size_t len, bool unified) {
    for (size_t i = 0; i < sizeof nuts / sizeof nuts[0]; i++)
        if ((unified ? nuts[i].inch : nuts[i].metric) &&
            same_grade(name, len, nuts[i].name))
            return &nuts[i];
    return NULL;
}

bool nut_is_weaker(const struct nut *nut, const struct grade *bolt) {
    bool iso = bolt->metric && !bolt->stainless;
    /* In the name of the class: 8.8 is 800 MPa, though above 16 mm it has 830.
     */
    double tensile =
        iso ? 100 * MPA * (int)strtod(bolt->name, NULL) : bolt->tensile;
    return nut->bolt < tensile * (1 - 1e-9);
}

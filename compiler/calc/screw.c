/* screw.c - tapping screws in sheet and plastic, wood screws. */
#include "calc/screw.h"
#include "calc/word.h"

#include <math.h>
#include <string.h>

#define PI 3.14159265358979323846
#define MM 1e-3
#define INCH 0.0254
#define LBF 4.4482216152605

/* clang-format off */

/* Metric, mm and N m: diameter, pitch, root, least breaking torque (ISO 2702).
 * Source: ISO 1478; diameter and pitch of ST2.2, 2.9, 3.5, 4.2, 4.8 and 5.5 seen
 * in a distributor's table, the rest from memory. */
#define ST(name, old, d, p, root, breaking) \
    {name, old, (d) * MM, (p) * MM, (root) * MM, breaking, NAN, NAN, "ISO 1478; breaking torque from memory: ISO 2702"}
/* Inch: diameter, threads an inch, root, in; torque range into metal, lbf in
 * brought to N m as the maker prints it. */
#define AB(name, d, n, root, low, high) \
    {name, NULL, (d) * INCH, INCH / (n), (root) * INCH, NAN, low, high, "ASME B18.6.4 type AB; torque: a mower maker's service manual, zinc plated, into metal"}
static const struct tapping_screw screws[] = {
    ST("ST2.2", "#2", 2.24, 0.8, 1.63, 0.45),
    ST("ST2.9", "#4", 2.9, 1.1, 2.18, 1.5),
    ST("ST3.3", "#5", 3.3, 1.3, 2.39, 2.0),
    ST("ST3.5", "#6", 3.53, 1.3, 2.64, 2.7),
    ST("ST3.9", "#7", 3.91, 1.3, 2.92, 3.4),
    ST("ST4.2", "#8", 4.22, 1.4, 3.1, 4.4),
    ST("ST4.8", "#10", 4.8, 1.6, 3.58, 6.3),
    ST("ST5.5", "#12", 5.46, 1.8, 4.17, 10.0),
    ST("ST6.3", "#14", 6.25, 1.8, 4.88, 13.6),
    ST("ST8", "5/16", 8.0, 2.1, 6.2, 30.5),
    AB("#4 AB", 0.112, 24, 0.086, NAN, NAN),
    AB("#6 AB", 0.138, 20, 0.104, 2, 3),
    AB("#8 AB", 0.164, 18, 0.122, 3, 4),
    AB("#10 AB", 0.19, 16, 0.141, 4, 5),
    AB("#12 AB", 0.216, 14, 0.164, 8, 11),
    AB("1/4 AB", 0.25, 14, 0.192, NAN, NAN),
    AB("5/16 AB", 0.313, 12, 0.244, NAN, NAN),
};

/* Pilot holes in drilled steel, brass or copper: sheet over, up to, hole, mm.
 * Source: a fastener distributor's table, hole group 1B; rows side by side with
 * one hole are one. */
static const struct {
    const char *screw;
    double over, upto, hole;
} sheet_holes[] = {
    {"ST2.2", 0.56, 0.75, 1.6},
    {"ST2.2", 0.75, 0.88, 1.7},
    {"ST2.2", 0.88, 1.38, 1.8},
    {"ST2.2", 1.38, 1.5, 1.9},
    {"ST2.9", 0, 0.56, 2.2},
    {"ST2.9", 0.56, 0.75, 2.3},
    {"ST2.9", 0.75, 1.38, 2.4},
    {"ST2.9", 1.38, 1.75, 2.5},
    {"ST2.9", 1.75, 2.5, 2.6},
    {"ST3.5", 0, 0.56, 2.6},
    {"ST3.5", 0.56, 0.88, 2.7},
    {"ST3.5", 0.88, 1.38, 2.8},
    {"ST3.5", 1.38, 1.75, 2.9},
    {"ST3.5", 1.75, 2.5, 3.0},
    {"ST4.2", 0.5, 1.13, 3.2},
    {"ST4.2", 1.13, 1.38, 3.3},
    {"ST4.2", 1.38, 2.5, 3.5},
    {"ST4.2", 2.5, 3, 3.8},
    {"ST4.2", 3, 3.5, 3.9},
    {"ST4.8", 0.5, 1.13, 3.7},
    {"ST4.8", 1.13, 1.75, 3.9},
    {"ST4.8", 1.75, 2.5, 4.0},
    {"ST4.8", 2.5, 3, 4.1},
    {"ST4.8", 3, 3.5, 4.3},
    {"ST4.8", 3.5, 4.75, 4.4},
};

/* In plastic, mm. The same table, hole groups 4 and 5. */
static const struct {
    const char *screw;
    double thermoset, thermoplastic;
} plastic_holes[] = {
    {"ST2.9", 2.5, 2.4},
    {"ST3.5", 3.2, 3.0},
    {"ST4.2", 3.8, 3.7},
    {"ST4.8", 4.5, 4.3},
};

/* Inch, type AB: drills for light and heavy metal, in. Source: a fastener maker's
 * drill table after ASME B18.6.4. */
static const struct {
    const char *screw;
    double light, heavy;
} inch_holes[] = {
    {"#4 AB", 0.0960, 0.0960},
    {"#6 AB", 0.1160, 0.1160},
    {"#8 AB", 0.1360, 0.1405},
    {"#10 AB", 0.1590, 0.1610},
    {"#12 AB", 0.1820, 0.1850},
    {"1/4 AB", 0.2090, 0.2130},
    {"5/16 AB", 0.2660, 0.2720},
};
/* clang-format on */
#define COUNT(a) (sizeof a / sizeof a[0])

const struct tapping_screw *tapping_screw_find(const char *name, size_t len) {
    for (size_t i = 0; i < COUNT(screws); i++)
        if (word_is(name, len, screws[i].name) ||
            (screws[i].former && word_is(name, len, screws[i].former)))
            return &screws[i];
    return NULL;
}

const struct tapping_screw *tapping_screw_at(size_t index) {
    return index < COUNT(screws) ? &screws[index] : NULL;
}

double screw_pilot_sheet(const struct tapping_screw *s, double thickness) {
    const double slack = 1e-9;
    for (size_t i = 0; i < COUNT(sheet_holes); i++)
        if (strcmp(sheet_holes[i].screw, s->name) == 0 &&
            thickness > sheet_holes[i].over * MM - slack &&
            thickness <= sheet_holes[i].upto * MM + slack)
            return sheet_holes[i].hole * MM;
    return NAN;
}

double screw_pilot_plastic(const struct tapping_screw *s, bool thermoset) {
    for (size_t i = 0; i < COUNT(plastic_holes); i++)
        if (strcmp(plastic_holes[i].screw, s->name) == 0)
            return (thermoset ? plastic_holes[i].thermoset
                              : plastic_holes[i].thermoplastic) *
                   MM;
    return NAN;
}

double screw_pilot_inch(const struct tapping_screw *s, bool heavy) {
    for (size_t i = 0; i < COUNT(inch_holes); i++)
        if (strcmp(inch_holes[i].screw, s->name) == 0)
            return (heavy ? inch_holes[i].heavy : inch_holes[i].light) * INCH;
    return NAN;
}

const char *screw_pilot_source(void) {
    return "a fastener distributor's hole table; inch: a fastener maker's "
           "drill "
           "table after ASME B18.6.4";
}

static double pitch_diameter(const struct tapping_screw *s) {
    return (s->diameter + s->root) / 2;
}

static double value_pull_out(const void *fixed, const double *in) {
    const struct tapping_screw *s = fixed;
    if (!(in[0] >= 0) || !(in[1] >= 0))
        return NAN;
    return PI * pitch_diameter(s) * in[0] * in[1];
}

static double value_strip_torque(const void *fixed, const double *in) {
    const struct tapping_screw *s = fixed;
    double r = pitch_diameter(s) / 2, p = s->pitch / PI, f = in[1];
    double below = 2 * r - f * p;
    if (!(in[0] >= 0) || !(f >= 0) || !(below > 0))
        return NAN;
    return in[0] * r * (p + 2 * f * r) / below;
}

/* 2850 lbf/in2 of G^2 D L. */
static double value_wood(const void *fixed, const double *in) {
    (void)fixed;
    if (!(in[0] >= 0) || !(in[1] >= 0) || !(in[2] >= 0))
        return NAN;
    return 2850 * LBF / (INCH * INCH) * in[0] * in[0] * in[1] * in[2];
}

static const struct calculation calculations[SCREW_RESULTS] = {
    [SCREW_PULL_OUT] =
        {
            .name = "load that pulls a screw out of plastic",
            .formula = "F = pi * Dp * tau * L, Dp = (D + root) / 2",
            .source = "from memory: resin makers' design principles, "
                      "self-threading screws",
            .validity = "a sanity figure, not a promise; nothing negative",
            .unit = "N",
            .input_count = 2,
            .input = {{"tau", "shear strength of the plastic", "MPa",
                       TREND_RISING},
                      {"L", "engaged length", "m", TREND_RISING}},
            .value = value_pull_out,
        },
    [SCREW_STRIP_TORQUE] =
        {
            .name = "torque that strips a screw in plastic",
            .formula = "T = F * r * (p / pi + 2 * f * r) / (2 * r - f * p / "
                       "pi), r = Dp / 2",
            .source =
                "tan(lead angle + friction angle) of a square thread; from "
                "memory: resin makers' design principles",
            .validity =
                "a sanity figure, not a promise; f * p / pi below 2 * r",
            .unit = "N.m",
            .input_count = 2,
            .input = {{"F", "pull-out load", "N", TREND_RISING},
                      {"f", "coefficient of friction", "1", TREND_RISING}},
            .value = value_strip_torque,
        },
    [SCREW_WOOD] =
        {
            .name = "withdrawal load that a wood screw may bear",
            .formula = "F = 2850 lbf/in2 * G^2 * D * L",
            .source = "Hicks, Civil Engineering Formulas, Eq. 6.37",
            .validity = "side grain, seasoned and dry; not plywood, not end "
                        "grain",
            .unit = "N",
            .input_count = 3,
            .input = {{"G", "specific gravity of the wood", "1", TREND_RISING},
                      {"D", "shank diameter", "m", TREND_RISING},
                      {"L", "length of thread in the wood", "m", TREND_RISING}},
            .value = value_wood,
        },
};

const struct calculation *screw_calculation(enum screw_result r) {
    return &calculations[r];
}

/* strip.c - thread engagement: stripping loads, rules of practice, inserts. */
#include "calc/strip.h"
#include "calc/word.h"

#include <math.h>

static double value_hole(const void *fixed, const double *in) {
    const struct engagement *e = fixed;
    struct thread_shear s;
    if (!(in[0] >= 0) || !(e->hole_shear > 0) || !thread_shear(&e->thread, &s))
        return NAN;
    return s.internal * in[0] * e->hole_shear;
}

static double value_bolt(const void *fixed, const double *in) {
    const struct engagement *e = fixed;
    struct thread_shear s;
    if (!(in[0] >= 0) || !(e->bolt_tensile > 0) ||
        !thread_shear(&e->thread, &s))
        return NAN;
    return s.external * in[0] * e->bolt_tensile / 2;
}

static double value_length(const void *fixed, const double *in) {
    const struct engagement *e = fixed;
    struct thread_shear s;
    (void)in;
    if (!(e->hole_shear > 0) || !(e->bolt_tensile > 0) ||
        !thread_shear(&e->thread, &s))
        return NAN;
    double area = e->thread.stress_area;
    return fmax(2 * area / s.external,
                area * e->bolt_tensile / (s.internal * e->hole_shear));
}

static size_t constants_hole(const void *fixed,
                             struct calculation_constant *out) {
    const struct engagement *e = fixed;
    struct thread_shear s;
    if (!thread_shear(&e->thread, &s))
        return 0;
    out[0] = (struct calculation_constant){"ASn", s.internal, "mm2/mm"};
    out[1] = (struct calculation_constant){"tau", e->hole_shear, "MPa"};
    return 2;
}

#define H28                                                                    \
    "FED-STD-H28/2B; ASME B1.1 and B1.13M Appendix B; shear strength of the "  \
    "bolt as half its tensile strength"
#define STANDARD_LIMITS "thread with standard limits 6g/6H or 2A/2B"

static const struct calculation calculations[STRIP_RESULTS] = {
    [STRIP_HOLE] =
        {
            .name = "load that strips the tapped hole",
            .formula = "F = ASn * L * tau",
            .source = H28,
            .validity = STANDARD_LIMITS,
            .unit = "N",
            .input_count = 1,
            .input = {{"L", "length of engagement", "m", TREND_RISING}},
            .value = value_hole,
            .constants = constants_hole,
        },
    [STRIP_BOLT] =
        {
            .name = "load that strips the bolt's thread",
            .formula = "F = ASs * L * Rm / 2",
            .source = H28,
            .validity = STANDARD_LIMITS,
            .unit = "N",
            .input_count = 1,
            .input = {{"L", "length of engagement", "m", TREND_RISING}},
            .value = value_bolt,
        },
    [STRIP_LENGTH] =
        {
            .name = "engagement at which the bolt breaks first",
            .formula = "L = max(2 * As / ASs, As * Rm / (ASn * tau))",
            .source = H28,
            .validity = STANDARD_LIMITS,
            .unit = "mm",
            .input_count = 0,
            .value = value_length,
        },
};

const struct calculation *strip_calculation(enum strip_result r) {
    return &calculations[r];
}

#define MPA 1e6
#define A9 "from memory: VDI 2230-1 Table A9, the weaker of its grades"
#define DESIGN "from memory: common design rule"
#define NO_THREAD                                                              \
    "common practice, no source: a bolt goes through it, with large washers"
static const struct engagement_rule rules[] = {
    {"steel", 1, 1, "US Army TB 43-0218 para 7a", 200 * MPA, 1, A9, 0},
    {"cast iron", 1.5, 1,
     "from memory: common design rule; a generator maker has 1.25", 290 * MPA,
     1, A9, 1.25},
    {"bronze", 1.5, 1, DESIGN, 140 * MPA, 1,
     "from memory: 0.6 of the tensile strength of bearing bronze", 0},
    {"brass", 1.5, 1, DESIGN, 200 * MPA, 1,
     "from memory: 0.6 of the tensile strength of free-cutting brass", 0},
    {"aluminium", 2, 0.7,
     "US Army TM 9-6115-604-34 Table 1-2 note 6: 30 % less torque, or inserts",
     130 * MPA, 1,
     "Standard Handbook of Fastening and Joining, the worked example in 310 "
     "aluminium",
     1.5},
    {"cast aluminium", 2, 0.7,
     "US Army TM 9-6115-604-34 Table 1-2 note 6: 30 % less torque, or inserts",
     110 * MPA, 1, A9, 1.5},
    {"plastic", 2.5, 1, "a fastener maker's boss guide; thread-forming screw",
     30 * MPA, 0.5,
     "from memory: unfilled polyamide at 50 % humidity; resin makers' guides "
     "use half of what strips it",
     0},
    {"glass-reinforced plastic", 0, 0, NO_THREAD, 0, 0, NO_THREAD, 0},
    {"glass fibre", 0, 0, NO_THREAD, 0, 0, NO_THREAD, 0},
    {"wood", 0, 0, NO_THREAD, 0, 0, NO_THREAD, 0},
};
enum { RULES = sizeof rules / sizeof rules[0] };

const struct engagement_rule *engagement_find(const char *into, size_t len) {
    for (size_t i = 0; i < RULES; i++)
        if (word_is(into, len, rules[i].into))
            return &rules[i];
    return NULL;
}

const struct engagement_rule *engagement_at(size_t index) {
    return index < RULES ? &rules[index] : NULL;
}

/* MPa: rows by shear strength of the parent, columns by tensile strength of the
 * bolt; length in diameters, 0 not covered. Source: a maker's design table. */
static const double parent_mpa[] = {70, 100, 150, 200, 250, 300, 350};
static const double bolt_mpa[] = {390, 490, 590, 790, 980, 1180, 1370};
enum {
    PARENTS = sizeof parent_mpa / sizeof parent_mpa[0],
    BOLTS = sizeof bolt_mpa / sizeof bolt_mpa[0]
};
static const double insert_table[PARENTS][BOLTS] = {
    {2, 2.5, 3, 0, 0, 0, 0},     {1.5, 1.5, 2, 2.5, 3, 0, 0},
    {1, 1.5, 1.5, 2, 2.5, 3, 3}, {1, 1, 1, 1.5, 2, 2, 2.5},
    {1, 1, 1, 1.5, 1.5, 2, 2},   {1, 1, 1, 1, 1.5, 1.5, 2},
    {1, 1, 1, 1, 1, 1.5, 1.5},
};

double insert_length(double parent_shear, double bolt_tensile) {
    const double slack = 1e-9, mpa = 1e6;
    int row = -1, column = BOLTS;
    for (int i = 0; i < PARENTS; i++)
        if (parent_mpa[i] * mpa <= parent_shear * (1 + slack))
            row = i;
    for (int i = BOLTS - 1; i >= 0; i--)
        if (bolt_mpa[i] * mpa >= bolt_tensile * (1 - slack))
            column = i;
    if (row < 0 || column == BOLTS || !(insert_table[row][column] > 0))
        return NAN;
    return insert_table[row][column];
}

const char *insert_source(void) {
    return "a wire insert maker's design table, free-running insert";
}

/* seat.c - the pressure under a head or nut. */
#include "calc/seat.h"
#include "calc/hole.h"
#include "calc/word.h"

#include <math.h>

#define PI 3.14159265358979323846
#define MM 1e-3
#define MPA 1e6

#define A9 "from memory: VDI 2230-1 Table A9, the weaker of its grades"
static const struct seat seats[] = {
    {"steel", 490 * MPA, A9},
    {"hardened steel", 850 * MPA, A9},
    {"cast iron", 600 * MPA, A9},
    {"aluminium", 260 * MPA, A9},
    {"cast aluminium", 220 * MPA, A9},
    {"magnesium", 220 * MPA, A9},
    {"glass-reinforced plastic", 120 * MPA, A9},
    {"carbon-reinforced plastic", 140 * MPA, A9},
};
enum { SEATS = sizeof seats / sizeof seats[0] };

const struct seat *seat_find(const char *material, size_t len) {
    for (size_t i = 0; i < SEATS; i++)
        if (word_is(material, len, seats[i].material))
            return &seats[i];
    return NULL;
}

const struct seat *seat_at(size_t index) {
    return index < SEATS ? &seats[index] : NULL;
}

/* Washer face of a hexagon head, least dw, mm. From memory: ISO 4014. */
static const struct {
    double diameter, face;
} heads[] = {
    {3, 4.57},   {4, 5.88},   {5, 6.88},   {6, 8.88},   {7, 9.63},
    {8, 11.63},  {10, 14.63}, {12, 16.63}, {14, 19.37}, {16, 22.49},
    {18, 25.34}, {20, 28.19}, {22, 31.71}, {24, 33.61}, {27, 38},
    {30, 42.75}, {33, 46.55}, {36, 51.11}, {39, 55.86},
};
enum { HEADS = sizeof heads / sizeof heads[0] };

bool seat_hexagon(const struct thread *t, struct seated *out) {
    const char *source;
    out->hole = hole_clearance(t, HOLE_MEDIUM, &source);
    for (size_t i = 0; i < HEADS; i++) {
        if (!t->unified && fabs(heads[i].diameter * MM - t->diameter) < 1e-7) {
            out->face = heads[i].face * MM;
            return true;
        }
    }
    return false;
}

/* Area that presses, m2; NAN when there is none. */
static double area(const struct seated *s) {
    if (!(s->hole >= 0) || !(s->face > s->hole))
        return NAN;
    return PI / 4 * (s->face * s->face - s->hole * s->hole);
}

static double value_pressure(const void *fixed, const double *in) {
    return in[0] >= 0 ? in[0] / area(fixed) : NAN;
}

static double value_load(const void *fixed, const double *in) {
    return in[0] >= 0 ? in[0] * area(fixed) : NAN;
}

static const struct calculation calculations[SEAT_RESULTS] = {
    [SEAT_PRESSURE] =
        {
            .name = "pressure under the head",
            .formula = "p = F / (pi / 4 * (dw^2 - dh^2))",
            .source = "VDI 2230-1; dw ISO 4014, dh ISO 273",
            .validity = "F not negative; dw above dh",
            .unit = "MPa",
            .input_count = 1,
            .input = {{"F", "preload", "N", TREND_RISING}},
            .value = value_pressure,
        },
    [SEAT_LOAD] =
        {
            .name = "preload that the seat bears",
            .formula = "F = p * pi / 4 * (dw^2 - dh^2)",
            .source = "VDI 2230-1; dw ISO 4014, dh ISO 273",
            .validity = "p not negative; dw above dh",
            .unit = "N",
            .input_count = 1,
            .input = {{"p", "pressure that the seat bears", "MPa",
                       TREND_RISING}},
            .value = value_load,
        },
};

const struct calculation *seat_calculation(enum seat_result r) {
    return &calculations[r];
}

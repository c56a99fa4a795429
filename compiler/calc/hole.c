/* hole.c - clearance holes, tap drills, and the FAA's bolt torques by thread.
 */
#include "calc/hole.h"

#include <math.h>
#include <string.h>

#define MM 1e-3
#define INCH 0.0254

/* Part of the name before a blank: the size of "1/4-20 UNC" is "1/4". */
static bool size_is(const struct thread *t, const char *size) {
    size_t n = strlen(size);
    return t->unified && memcmp(t->name, size, n) == 0 && t->name[n] == '-';
}

static bool pair_is(const struct thread *t, const char *pair) {
    size_t n = strlen(pair);
    return t->unified && memcmp(t->name, pair, n) == 0 && t->name[n] == ' ';
}

/* clang-format off */

/* ISO 273, mm: thread, fine H12, medium H13, coarse H14. M18 and above from
 * memory of the standard. */
static const struct {
    double thread, hole[HOLE_FITS];
} metric_holes[] = {
    {3, {3.2, 3.4, 3.6}},
    {3.5, {3.7, 3.9, 4.2}},
    {4, {4.3, 4.5, 4.8}},
    {5, {5.3, 5.5, 5.8}},
    {6, {6.4, 6.6, 7.0}},
    {7, {7.4, 7.6, 8.0}},
    {8, {8.4, 9.0, 10.0}},
    {10, {10.5, 11.0, 12.0}},
    {12, {13.0, 13.5, 14.5}},
    {14, {15.0, 15.5, 16.5}},
    {16, {17.0, 17.5, 18.5}},
    {18, {19, 20, 21}},
    {20, {21, 22, 24}},
    {22, {23, 24, 26}},
    {24, {25, 26, 28}},
    {27, {28, 30, 32}},
    {30, {31, 33, 35}},
    {33, {34, 36, 38}},
    {36, {37, 39, 42}},
    {39, {40, 42, 45}},
};

/* Traditional shop chart, in: screw, close, free; no third column. */
static const struct {
    const char *screw;
    double hole[HOLE_FITS];
} inch_holes[] = {
    {"#4", {0.116, 0.1285, 0}},
    {"#6", {0.144, 0.1495, 0}},
    {"#8", {0.1695, 0.177, 0}},
    {"#10", {0.196, 0.201, 0}},
    {"#12", {0.221, 0.228, 0}},
    {"1/4", {0.257, 0.266, 0}},
    {"5/16", {0.323, 0.332, 0}},
    {"3/8", {0.386, 0.397, 0}},
    {"1/2", {0.5156, 0.5312, 0}},
};

/* Common tap drills, about 75 % of thread: name, in. Source: a university shop
 * chart; 7/16-14, 7/16-20, 1/2-20 and from 9/16 on from memory of such charts. */
static const struct {
    const char *thread, *drill;
    double size;
} tap_drills[] = {
    {"#4-40", "43", 0.0890},
    {"#6-32", "36", 0.1065},
    {"#8-32", "29", 0.1360},
    {"#10-24", "25", 0.1495},
    {"#10-32", "21", 0.1590},
    {"#12-24", "16", 0.1770},
    {"1/4-20", "7", 0.2010},
    {"1/4-28", "3", 0.2130},
    {"5/16-18", "F", 0.2570},
    {"5/16-24", "I", 0.2720},
    {"3/8-16", "5/16", 0.3125},
    {"3/8-24", "Q", 0.3320},
    {"7/16-14", "U", 0.3680},
    {"7/16-20", "25/64", 0.3906},
    {"1/2-13", "27/64", 0.4219},
    {"1/2-20", "29/64", 0.4531},
    {"9/16-12", "31/64", 0.4844},
    {"9/16-18", "33/64", 0.5156},
    {"5/8-11", "17/32", 0.5312},
    {"5/8-18", "37/64", 0.5781},
    {"3/4-10", "21/32", 0.6562},
    {"3/4-16", "11/16", 0.6875},
    {"7/8-9", "49/64", 0.7656},
    {"7/8-14", "13/16", 0.8125},
    {"1-8", "7/8", 0.8750},
};
/* clang-format on */
#define COUNT(a) (sizeof a / sizeof a[0])

double hole_clearance(const struct thread *t, enum hole_fit fit,
                      const char **source) {
    double hole = 0;
    *source = t->unified ? "traditional shop chart" : "ISO 273";
    for (size_t i = 0; i < COUNT(metric_holes); i++)
        if (!t->unified &&
            fabs(metric_holes[i].thread * MM - t->diameter) < 1e-7)
            hole = metric_holes[i].hole[fit] * MM;
    for (size_t i = 0; i < COUNT(inch_holes); i++)
        if (size_is(t, inch_holes[i].screw))
            hole = inch_holes[i].hole[fit] * INCH;
    return hole > 0 ? hole : NAN;
}

double hole_tap(const struct thread *t, const char **drill,
                const char **source) {
    *drill = NULL;
    if (!t->unified) {
        *source = "ISO 2306: diameter less pitch";
        return t->diameter - t->pitch;
    }
    *source = "common tap drill chart, about 75 % of thread";
    for (size_t i = 0; i < COUNT(tap_drills); i++) {
        if (pair_is(t, tap_drills[i].thread)) {
            *drill = tap_drills[i].drill;
            return tap_drills[i].size * INCH;
        }
    }
    return NAN;
}

double hole_thread_share(const struct thread *t, double hole) {
    return (t->diameter - hole) / (1.299038 * t->pitch);
}

/* wrench.c - what the wrench must show: prevailing torque, extension, steps. */
#include "calc/rounding.h"
#include "calc/torque.h"
#include "calc/word.h"

#include <math.h>
#include <string.h>

#define PI 3.14159265358979323846
#define LBF_IN 0.1129848290276167

static const char *const rule_name[PREVAILING_RULES] = {
    [PREVAILING_ALWAYS] = "always",
    [PREVAILING_THIRD] = "over a third",
    [PREVAILING_INCLUDED] = "included",
};

const char *prevailing_name(enum prevailing_rule r) {
    return rule_name[r];
}

bool prevailing_find(const char *name, size_t len, enum prevailing_rule *out) {
    for (int r = 0; r < PREVAILING_RULES; r++) {
        if (word_is(name, len, rule_name[r])) {
            *out = (enum prevailing_rule)r;
            return true;
        }
    }
    return false;
}

static double add_always(const void *fixed, const double *in) {
    (void)fixed;
    return in[0] >= 0 && in[1] >= 0 ? in[0] + in[1] : NAN;
}

static double add_nothing(const void *fixed, const double *in) {
    (void)fixed;
    return in[0] >= 0 && in[1] >= 0 ? in[0] : NAN;
}

static double take_off(const void *fixed, const double *in) {
    (void)fixed;
    return in[1] >= 0 && in[0] >= in[1] ? in[0] - in[1] : NAN;
}

#define DRAG                                                                   \
    { "Tp", "prevailing torque, nut turning on", "N.m", TREND_RISING }

/* The rule of a third either way: it is decided, not computed. */
enum { THIRD_REACHED = PREVAILING_THIRD, THIRD_MISSED = PREVAILING_RULES };

static const struct calculation prevailing[PREVAILING_RULES + 1] = {
    [PREVAILING_ALWAYS] =
        {
            .name = "torque with the prevailing torque added",
            .formula = "Ts = T + Tp",
            .source = "FAA AC 43.13-1B para 7-40",
            .validity = "not negative",
            .unit = "N.m",
            .input_count = 2,
            .input = {{"T", "torque", "N.m", TREND_RISING}, DRAG},
            .value = add_always,
        },
    [THIRD_REACHED] =
        {
            .name = "torque with the prevailing torque added, a third or more",
            .formula = "Ts = T + Tp, since Tp >= T / 3",
            .source = "US Army TB 43-0218 para 7c",
            .validity = "not negative",
            .unit = "N.m",
            .input_count = 2,
            .input = {{"T", "torque", "N.m", TREND_RISING}, DRAG},
            .value = add_always,
        },
    [THIRD_MISSED] =
        {
            .name = "torque without the prevailing torque, less than a third",
            .formula = "Ts = T, since Tp < T / 3",
            .source = "US Army TB 43-0218 para 7c",
            .validity = "not negative",
            .unit = "N.m",
            .input_count = 2,
            .input = {{"T", "torque", "N.m", TREND_RISING}, DRAG},
            .value = add_nothing,
        },
    [PREVAILING_INCLUDED] =
        {
            .name = "torque that has the prevailing torque in it",
            .formula = "Ts = T, Tp is in it already",
            .source = "the figure's own source",
            .validity = "not negative",
            .unit = "N.m",
            .input_count = 2,
            .input = {{"T", "torque", "N.m", TREND_RISING}, DRAG},
            .value = add_nothing,
        },
};

const struct calculation *prevailing_calculation(enum prevailing_rule r,
                                                 double torque, double drag) {
    /* Snapped, so that exactly a third written in other units counts as one. */
    bool missed =
        r == PREVAILING_THIRD && !(round_snap(3 * drag) >= round_snap(torque));
    return &prevailing[missed ? THIRD_MISSED : (int)r];
}

const struct calculation *clamping_calculation(void) {
    static const struct calculation clamping = {
        .name = "torque that clamps, of that on the wrench",
        .formula = "Tc = Ts - Tp",
        .source = "FAA AC 43.13-1B para 7-40, the other way round: the drag is "
                  "no part of what clamps",
        .validity = "Tp at most Ts",
        .unit = "N.m",
        .input_count = 2,
        .input = {{"Ts", "torque on the wrench", "N.m", TREND_RISING},
                  {"Tp", "prevailing torque, nut turning on", "N.m",
                   TREND_FALLING}},
        .value = take_off,
    };
    return &clamping;
}

/* AC 43.13-1B Table 7-2, lbf in, nuts used again. Source: page 7-12. */
static const struct {
    const char *thread;
    double lbf_in;
} least[] = {
    {"7/16-20", 8},   {"1/2-20", 10},  {"9/16-18", 13}, {"5/8-18", 18},
    {"3/4-16", 27},   {"7/8-14", 40},  {"1-14", 55},    {"1-1/8-12", 73},
    {"1-1/4-12", 94}, {"7/16-14", 8},  {"1/2-13", 10},  {"9/16-12", 14},
    {"5/8-11", 20},   {"3/4-10", 27},  {"7/8-9", 40},   {"1-8", 51},
    {"1-1/8-8", 68},  {"1-1/4-8", 88},
};

double prevailing_least(const struct thread *t) {
    size_t name = strcspn(t->name, " ");
    for (size_t i = 0; t->unified && i < sizeof least / sizeof least[0]; i++)
        if (strlen(least[i].thread) == name &&
            memcmp(least[i].thread, t->name, name) == 0)
            return least[i].lbf_in * LBF_IN;
    return NAN;
}

const char *prevailing_least_source(void) {
    return "FAA AC 43.13-1B Table 7-2";
}

/* (L + E cos a)/L; NAN where the adapter reaches back to the hand. */
static double reach(double lever, double extension, double turns) {
    if (!(lever > 0) || !(extension >= 0) || !isfinite(turns))
        return NAN;
    double sum = lever + extension * cos(2 * PI * turns);
    return sum > 0 ? sum / lever : NAN;
}

static double value_setting(const void *fixed, const double *in) {
    (void)fixed;
    return in[0] >= 0 ? in[0] / reach(in[1], in[2], in[3]) : NAN;
}

static double value_torque(const void *fixed, const double *in) {
    (void)fixed;
    return in[0] >= 0 ? in[0] * reach(in[1], in[2], in[3]) : NAN;
}

#define LENGTHS                                                                \
    {"L", "middle of the grip to the square drive", "m", TREND_NEITHER},       \
        {"E", "square drive to fastener", "m", TREND_NEITHER}, {               \
        "a", "angle of the extension to the wrench", "deg", TREND_NEITHER      \
    }
#define EXTENSION_VALID "L + E * cos a above 0; hand on the middle of the grip"

static const struct calculation extensions[EXTENSION_RESULTS] = {
    [EXTENSION_SETTING] =
        {
            .name = "wrench setting with an extension",
            .formula = "S = T * L / (L + E * cos a)",
            .source = "AC 43.13-1B fig. 7-2; US Army TM 1-1500-204-23-9; TM "
                      "9-254 fig. 46",
            .validity = EXTENSION_VALID,
            .unit = "N.m",
            .input_count = 4,
            .input = {{"T", "torque at the fastener", "N.m", TREND_RISING},
                      LENGTHS},
            .value = value_setting,
        },
    [EXTENSION_TORQUE] =
        {
            .name = "torque at the fastener with an extension",
            .formula = "T = S * (L + E * cos a) / L",
            .source = "AC 43.13-1B fig. 7-2; US Army TM 9-254 fig. 45",
            .validity = EXTENSION_VALID,
            .unit = "N.m",
            .input_count = 4,
            .input = {{"S", "setting of the wrench", "N.m", TREND_RISING},
                      LENGTHS},
            .value = value_torque,
        },
};

const struct calculation *extension_calculation(enum extension_result r) {
    return &extensions[r];
}

struct wrench_setting wrench_set(const struct wrench *w, double torque) {
    const double slack = 1e-9;
    struct wrench_setting s = {
        .setting = round_step_from(torque, w->step, w->from, ROUND_HALF_EVEN),
        .tolerance = w->to > 10 * (1 + slack) ? 0.04 : 0.06,
    };
    s.in_range =
        s.setting >= w->from * (1 - slack) && s.setting <= w->to * (1 + slack);
    s.checked = s.in_range && s.setting >= 0.2 * w->to * (1 - slack);
    s.best = s.setting >= 0.3 * w->to * (1 - slack) &&
             s.setting <= 0.8 * w->to * (1 + slack);
    s.step_fine = w->step <= 0.1 * s.setting * (1 + slack);
    return s;
}

/* torque.c - from torque to preload and back. */
#include "calc/torque.h"
#include "calc/seat.h"

#include <math.h>

#define PI 3.14159265358979323846

double torque_bearing(const struct thread *t, bool *from_table) {
    struct seated s;
    *from_table = seat_hexagon(t, &s);
    return *from_table ? (s.face + s.hole) / 2 : 1.3 * t->diameter;
}

/* Torque over preload, m. */
static double lever(const struct torque_joint *j, double thread, double head) {
    if (!(thread >= 0) || !(head >= 0) || !(j->bearing >= 0))
        return NAN;
    return 0.16 * j->thread.pitch + 0.58 * thread * j->thread.pitch_diameter +
           head * j->bearing / 2;
}

/* Equivalent over axial stress while the thread is turned: sqrt(1 + 3 [1.5
 * (d2/d0) (P/(pi d2) + 1.155 mG)]^2), d0 of the stress area. */
static double combined(const struct torque_joint *j, double thread) {
    if (!(thread >= 0))
        return NAN;
    double d2 = j->thread.pitch_diameter;
    double d0 = sqrt(4 * j->thread.stress_area / PI);
    double twist =
        1.5 * d2 / d0 * (j->thread.pitch / (PI * d2) + 1.155 * thread);
    return sqrt(1 + 3 * twist * twist);
}

static double target_preload(const struct torque_joint *j, double thread) {
    if (!j->grade)
        return NAN;
    double area = j->thread.stress_area;
    switch (j->target) {
    case TARGET_75_PROOF:
        return 0.75 * area * j->grade->proof;
    case TARGET_90_PROOF:
        return 0.90 * area * j->grade->proof;
    case TARGET_90_YIELD:
        return 0.90 * area * j->grade->yield / combined(j, thread);
    case TARGET_70_TENSILE:
        return 0.70 * area * j->grade->tensile;
    case TARGETS:
        break;
    }
    return NAN;
}

static double value_short(const void *fixed, const double *in) {
    const struct torque_joint *j = fixed;
    if (!(in[0] > 0) || !(in[1] >= 0))
        return NAN;
    return in[0] * in[1] * j->thread.diameter;
}

static double value_long(const void *fixed, const double *in) {
    return in[0] >= 0 ? in[0] * lever(fixed, in[1], in[2]) : NAN;
}

static double value_reduced(const void *fixed, const double *in) {
    const struct torque_joint *j = fixed;
    if (!(in[0] >= 0) || !(in[1] >= 0))
        return NAN;
    return in[0] *
           (0.159 * j->thread.pitch + 1.156 * in[1] * j->thread.diameter);
}

static double value_screw(const void *fixed, const double *in) {
    const struct torque_joint *j = fixed;
    double d = j->thread.diameter, m = in[1];
    double dm = (d + j->thread.root) / 2;
    double tan_l = j->thread.pitch / (PI * dm);
    double sec_a = 2 / sqrt(3);
    double below = 1 - m * tan_l * sec_a;
    if (!(in[0] >= 0) || !(m >= 0) || !(in[2] >= 0) || !(below > 0))
        return NAN;
    return in[0] * d *
           (dm / (2 * d) * (tan_l + m * sec_a) / below + 0.625 * in[2]);
}

static double value_preload_short(const void *fixed, const double *in) {
    const struct torque_joint *j = fixed;
    if (!(in[0] >= 0) || !(in[1] > 0))
        return NAN;
    return in[0] / (in[1] * j->thread.diameter);
}

static double value_preload_long(const void *fixed, const double *in) {
    return in[0] >= 0 ? in[0] / lever(fixed, in[1], in[2]) : NAN;
}

static double value_preload_target(const void *fixed, const double *in) {
    return in[0] >= 0 ? target_preload(fixed, in[0]) : NAN;
}

static double value_target(const void *fixed, const double *in) {
    return target_preload(fixed, in[0]) * lever(fixed, in[0], in[1]);
}

static double value_target_equal(const void *fixed, const double *in) {
    return target_preload(fixed, in[0]) * lever(fixed, in[0], in[0]);
}

static double value_stress(const void *fixed, const double *in) {
    const struct torque_joint *j = fixed;
    if (!(in[0] >= 0))
        return NAN;
    return in[0] / j->thread.stress_area * combined(j, in[1]);
}

static double value_proof(const void *fixed, const double *in) {
    const struct torque_joint *j = fixed;
    (void)in;
    return j->grade ? j->thread.stress_area * j->grade->proof : NAN;
}

static double value_yield(const void *fixed, const double *in) {
    const struct torque_joint *j = fixed;
    (void)in;
    return j->grade ? j->thread.stress_area * j->grade->yield : NAN;
}

static double value_tensile(const void *fixed, const double *in) {
    const struct torque_joint *j = fixed;
    (void)in;
    return j->grade ? j->thread.stress_area * j->grade->tensile : NAN;
}

static double value_k(const void *fixed, const double *in) {
    const struct torque_joint *j = fixed;
    return lever(j, in[0], in[1]) / j->thread.diameter;
}

static size_t constants_short(const void *fixed,
                              struct calculation_constant *out) {
    const struct torque_joint *j = fixed;
    out[0] = (struct calculation_constant){"d", j->thread.diameter, "mm"};
    return 1;
}

static size_t constants_long(const void *fixed,
                             struct calculation_constant *out) {
    const struct torque_joint *j = fixed;
    out[0] = (struct calculation_constant){"P", j->thread.pitch, "mm"};
    out[1] =
        (struct calculation_constant){"d2", j->thread.pitch_diameter, "mm"};
    out[2] = (struct calculation_constant){"Dkm", j->bearing, "mm"};
    return 3;
}

static size_t constants_proof(const void *fixed,
                              struct calculation_constant *out) {
    const struct torque_joint *j = fixed;
    out[0] = (struct calculation_constant){"As", j->thread.stress_area, "mm2"};
    out[1] = (struct calculation_constant){"Sp", j->grade->proof, "MPa"};
    return 2;
}

static size_t constants_yield(const void *fixed,
                              struct calculation_constant *out) {
    const struct torque_joint *j = fixed;
    out[0] = (struct calculation_constant){"As", j->thread.stress_area, "mm2"};
    out[1] = (struct calculation_constant){"Re", j->grade->yield, "MPa"};
    return 2;
}

static size_t constants_tensile(const void *fixed,
                                struct calculation_constant *out) {
    const struct torque_joint *j = fixed;
    out[0] = (struct calculation_constant){"As", j->thread.stress_area, "mm2"};
    out[1] = (struct calculation_constant){"Rm", j->grade->tensile, "MPa"};
    return 2;
}

static size_t constants_target(const void *fixed,
                               struct calculation_constant *out) {
    const struct torque_joint *j = fixed;
    static const double share[TARGETS] = {0.75, 0.90, 0.90, 0.70};
    double stress = j->target == TARGET_90_YIELD     ? j->grade->yield
                    : j->target == TARGET_70_TENSILE ? j->grade->tensile
                                                     : j->grade->proof;
    out[0] = (struct calculation_constant){"share", share[j->target], "1"};
    out[1] = (struct calculation_constant){"As", j->thread.stress_area, "mm2"};
    out[2] = (struct calculation_constant){"stress", stress, "MPa"};
    if (j->target != TARGET_90_YIELD)
        return 3;
    out[3] =
        (struct calculation_constant){"d2", j->thread.pitch_diameter, "mm"};
    out[4] = (struct calculation_constant){
        "d0", sqrt(4 * j->thread.stress_area / PI), "mm"};
    out[5] = (struct calculation_constant){"P", j->thread.pitch, "mm"};
    return 6;
}

#define VDI "VDI 2230-1 (2003)"
#define LEVER "(0.16 * P + 0.58 * mG * d2 + mK * Dkm / 2)"
#define NOT_NEGATIVE "nothing negative"
#define IN_F                                                                   \
    { "F", "preload", "N", TREND_RISING }
#define IN_T                                                                   \
    { "T", "torque", "N.m", TREND_RISING }
#define IN_K(trend)                                                            \
    { "K", "nut factor", "1", trend }
#define IN_MG(trend)                                                           \
    { "mG", "coefficient of friction in the thread", "1", trend }
#define IN_MK(trend)                                                           \
    { "mK", "coefficient of friction under the head", "1", trend }

static const struct calculation calculations[TORQUE_RESULTS] = {
    [TORQUE_SHORT] =
        {
            .name = "torque by the nut factor",
            .formula = "T = K * F * d",
            .source = "Shigley, Mechanical Engineering Design, Eq. 8-27",
            .validity = "metal joint; K of the actual condition",
            .unit = "N.m",
            .input_count = 2,
            .input = {IN_K(TREND_RISING), IN_F},
            .value = value_short,
            .constants = constants_short,
        },
    [TORQUE_LONG] =
        {
            .name = "torque by friction of thread and head",
            .formula = "T = F * " LEVER,
            .source = VDI ", 60° thread; ISO 16047",
            .validity = NOT_NEGATIVE,
            .unit = "N.m",
            .input_count = 3,
            .input = {IN_F, IN_MG(TREND_RISING), IN_MK(TREND_RISING)},
            .value = value_long,
            .constants = constants_long,
        },
    [TORQUE_REDUCED] =
        {
            .name = "torque by one coefficient of friction",
            .formula = "T = F * (0.159 * P + 1.156 * m * d)",
            .source =
                "Machinery's Handbook, 31st ed., p. 1665 Eq. 24: d2 about "
                "0.92 d, bearing diameter 1.5 d",
            .validity = NOT_NEGATIVE,
            .unit = "N.m",
            .input_count = 2,
            .input = {IN_F,
                      {"m", "coefficient of friction", "1", TREND_RISING}},
            .value = value_reduced,
        },
    [TORQUE_SCREW] =
        {
            .name = "torque by the exact screw form",
            .formula = "T = F * d * (dm / (2 * d) * (tan l + m * sec a) / (1 - "
                       "m * tan l * sec a) + 0.625 * mC)",
            .source = "from memory: Shigley Eq. 8-26; a = 30°, collar 1.25 d",
            .validity = "m * tan l * sec a below 1",
            .unit = "N.m",
            .input_count = 3,
            .input = {IN_F,
                      {"m", "coefficient of friction in the thread", "1",
                       TREND_RISING},
                      {"mC", "coefficient of friction of the collar", "1",
                       TREND_RISING}},
            .value = value_screw,
        },
    [PRELOAD_SHORT] =
        {
            .name = "preload by the nut factor",
            .formula = "F = T / (K * d)",
            .source = "Shigley, Mechanical Engineering Design, Eq. 8-27",
            .validity = "metal joint; K of the actual condition",
            .unit = "N",
            .input_count = 2,
            .input = {IN_T, IN_K(TREND_FALLING)},
            .value = value_preload_short,
            .constants = constants_short,
        },
    [PRELOAD_LONG] =
        {
            .name = "preload by friction of thread and head",
            .formula = "F = T / " LEVER,
            .source = VDI ", 60° thread; ISO 16047",
            .validity = NOT_NEGATIVE,
            .unit = "N",
            .input_count = 3,
            .input = {IN_T, IN_MG(TREND_FALLING), IN_MK(TREND_FALLING)},
            .value = value_preload_long,
            .constants = constants_long,
        },
    [PRELOAD_TARGET] =
        {
            .name = "preload wanted",
            .formula = "F = share * As * stress, for 90 % of yield over "
                       "sqrt(1 + 3 * (1.5 * d2 / d0 * (P / (pi * d2) + 1.155 * "
                       "mG))^2)",
            .source = "Shigley Eq. 8-31 (75 and 90 % of proof); " VDI
                      " Table A1 (90 % of yield); RCSC (70 % of tensile)",
            .validity = "grade given in this size; " NOT_NEGATIVE,
            .unit = "N",
            .input_count = 1,
            .input = {IN_MG(TREND_FALLING)},
            .value = value_preload_target,
            .constants = constants_target,
        },
    [TORQUE_TARGET] =
        {
            .name = "torque for the preload wanted",
            .formula = "T = F(mG) * " LEVER,
            .source = VDI " Table A1",
            .validity = "grade given in this size; " NOT_NEGATIVE,
            .unit = "N.m",
            .input_count = 2,
            .input = {IN_MG(TREND_NEITHER), IN_MK(TREND_RISING)},
            .value = value_target,
        },
    [TORQUE_TARGET_EQUAL] =
        {
            .name = "torque for the preload wanted, one coefficient",
            .formula = "T = F(m) * (0.16 * P + 0.58 * m * d2 + m * Dkm / 2)",
            .source = VDI " Table A1",
            .validity = "grade given in this size; " NOT_NEGATIVE,
            .unit = "N.m",
            .input_count = 1,
            .input = {{"m", "coefficient of friction", "1", TREND_RISING}},
            .value = value_target_equal,
        },
    [TORQUE_STRESS] =
        {
            .name = "stress in the thread while it is tightened",
            .formula = "s = F / As * sqrt(1 + 3 * (1.5 * d2 / d0 * (P / (pi * "
                       "d2) + 1.155 * mG))^2)",
            .source = VDI,
            .validity = NOT_NEGATIVE,
            .unit = "MPa",
            .input_count = 2,
            .input = {IN_F, IN_MG(TREND_RISING)},
            .value = value_stress,
        },
    [PROOF_LOAD] =
        {
            .name = "proof load",
            .formula = "Fp = As * Sp",
            .source = "ISO 898-1, SAE J429",
            .validity = "grade given in this size",
            .unit = "N",
            .input_count = 0,
            .value = value_proof,
            .constants = constants_proof,
        },
    [YIELD_LOAD] =
        {
            .name = "least load at the yield point",
            .formula = "Fy = As * Re",
            .source = "ISO 898-1, SAE J429",
            .validity = "grade given in this size",
            .unit = "N",
            .input_count = 0,
            .value = value_yield,
            .constants = constants_yield,
        },
    [TENSILE_LOAD] =
        {
            .name = "least breaking load",
            .formula = "Fm = As * Rm",
            .source = "ISO 898-1, SAE J429",
            .validity = "grade given in this size",
            .unit = "N",
            .input_count = 0,
            .value = value_tensile,
            .constants = constants_tensile,
        },
    [TORQUE_K] =
        {
            .name = "nut factor that friction amounts to",
            .formula = "K = " LEVER " / d",
            .source = VDI " against Shigley Eq. 8-27",
            .validity = NOT_NEGATIVE,
            .unit = "1",
            .input_count = 2,
            .input = {IN_MG(TREND_RISING), IN_MK(TREND_RISING)},
            .value = value_k,
        },
};

const struct calculation *torque_calculation(enum torque_result r) {
    return &calculations[r];
}

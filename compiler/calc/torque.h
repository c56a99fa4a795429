/* torque.h - from torque to preload and back: K-factor and full friction form,
 * and the setting of the wrench. */
#ifndef TORQUE_H
#define TORQUE_H

#include "calc/calculation.h"
#include "calc/grade.h"
#include "calc/thread.h"

#include <stdbool.h>
#include <stddef.h>

/* Nut factor by condition of the thread, always a range. */
struct nut_factor {
    const char *condition; /* "clean, dry", "zinc plated", "oiled", ... */
    double low, nominal, high;
    bool verified;
    bool galls; /* stainless on stainless without paste: do not tighten dry */
    const char *source;
};
/* Order of the words and commas do not matter: "dry, clean". */
const struct nut_factor *nut_factor_find(const char *condition, size_t len);
const struct nut_factor *nut_factor_at(size_t index); /* NULL past the end */
/* Of a condition that the table lacks: from its least factor to its greatest,
 * which is the nominal one too, since what that does not hold nothing holds. */
const struct nut_factor *nut_factor_any(void);
/* What a condition that is not in the table may have meant, by its words:
 * "grease" is near to "lubricated". NULL: nothing is near. */
const struct nut_factor *nut_factor_near(const char *condition, size_t len);

/* Coefficient of friction by class, VDI 2230 Table A5. */
struct friction {
    const char *name; /* "A" to "E" */
    double low, high;
    const char *surfaces;
    const char *source;
};
const struct friction *friction_at(size_t index);

/* The four targets that all get called "per cent". */
enum preload_target {
    TARGET_75_PROOF,   /* 0.75 As Sp: joint that is taken apart again */
    TARGET_90_PROOF,   /* 0.90 As Sp: permanent joint */
    TARGET_90_YIELD,   /* 0.90 Rp0.2 combined with torsion (VDI 2230) */
    TARGET_70_TENSILE, /* 0.70 As Rm: structural */
    TARGETS
};
const char *target_name(enum preload_target t); /* "75 % of proof", ... */
const char *target_source(enum preload_target t);
bool target_find(const char *name, size_t len, enum preload_target *out);

/* `fixed` of the calculations here. */
struct torque_joint {
    struct thread thread;
    const struct grade *grade; /* NULL where not used */
    enum preload_target target;
    double bearing; /* m, mean diameter of friction under the head (Dkm) */
};
/* Dkm = (dw + dh)/2 for a hexagon head and medium clearance hole of this
 * thread, m; 1.3 d where the table has no row. dw: ISO 4014; dh: ISO 273
 * medium. */
double torque_bearing(const struct thread *t, bool *from_table);

enum torque_result {
    /* N m: T = K F d. K, F */
    TORQUE_SHORT,
    /* N m: T = F (0.16 P + 0.58 mG d2 + mK Dkm/2). F, mG, mK */
    TORQUE_LONG,
    /* N m: T = F (0.159 P + 1.156 m d). F, m */
    TORQUE_REDUCED,
    /* N m, exact screw form with a collar of 1.25 d: T = F d (dm/(2 d) (tan l +
     * m sec a)/(1 - m tan l sec a) + 0.625 mC). F, m, mC */
    TORQUE_SCREW,
    /* N: F = T/(K d). T, K */
    PRELOAD_SHORT,
    /* N: F = T/(0.16 P + 0.58 mG d2 + mK Dkm/2). T, mG, mK */
    PRELOAD_LONG,
    /* N at the joint's target. mG (only TARGET_90_YIELD uses it) */
    PRELOAD_TARGET,
    /* N m at the joint's target by the long form. mG, mK */
    TORQUE_TARGET,
    /* The same with one coefficient for thread and head. m */
    TORQUE_TARGET_EQUAL,
    /* Pa: equivalent stress in the thread while tightened. F, mG */
    TORQUE_STRESS,
    /* N: proof load As Sp, yield load As Re, breaking load As Rm. No inputs */
    PROOF_LOAD,
    YIELD_LOAD,
    TENSILE_LOAD,
    /* 1: K that the long form amounts to. mG, mK */
    TORQUE_K,
    TORQUE_RESULTS
};
const struct calculation *torque_calculation(enum torque_result r);

/* Scatter of the preload by the way of tightening, share of the mean. */
struct tightening {
    const char *name; /* "torque wrench", "by feel", ... */
    double minus, plus;
    const char *source;
};
const struct tightening *tightening_find(const char *name, size_t len);
const struct tightening *tightening_at(size_t index);

/* Prevailing torque: what the wrench must show. */
enum prevailing_rule {
    PREVAILING_ALWAYS,   /* add it (AC 43.13-1B 7-40) */
    PREVAILING_THIRD,    /* add it when it is a third of the torque or more (TB
                            43-0218 7c) */
    PREVAILING_INCLUDED, /* the figure has it in it */
    PREVAILING_RULES
};
const char *prevailing_name(enum prevailing_rule r); /* "always", ... */
bool prevailing_find(const char *name, size_t len, enum prevailing_rule *out);
/* N m: T, Tp. fixed: NULL. Both rising. Whether the drag is a third is decided
 * for this torque and drag, N m, and holds for all of their ranges: a wrench is
 * not set higher for the low end of a figure than for its high end. */
const struct calculation *prevailing_calculation(enum prevailing_rule r,
                                                 double torque, double drag);
/* N m that make the clamping force: Ts, what the wrench shows by any of these
 * rules, less Tp, the drag of the nut at hand. fixed: NULL. NAN where Tp
 * exceeds Ts. */
const struct calculation *clamping_calculation(void);
/* Least drag, N m, below which a self-locking nut is thrown away. Nuts used
 * again, AC 43.13-1B Table 7-2: fine and coarse threads 7/16 to 1-1/4 in. NAN
 * for others. */
double prevailing_least(const struct thread *t);
const char *prevailing_least_source(void);

/* Extension or crowfoot: setting = T L/(L + E cos a), lengths along the wrench
 * from the middle of the grip to the square drive (L) and from there to the
 * fastener (E); a = 0 straight on, 1/2 turn pointing back. */
enum extension_result {
    EXTENSION_SETTING, /* N m on the wrench. T, L, E, a. fixed: NULL */
    EXTENSION_TORQUE,  /* N m at the fastener. S, L, E, a. fixed: NULL */
    EXTENSION_RESULTS
};
const struct calculation *extension_calculation(enum extension_result r);

/* A wrench and what it can be set to. */
struct wrench {
    double from, to; /* N m */
    double step;     /* N m, > 0; counted from `from` */
};
struct wrench_setting {
    double setting; /* N m, the step nearest to the wanted torque */
    bool in_range;  /* within from and to */
    bool checked;   /* within 20 to 100 % of `to`, where tools are calibrated */
    bool best;      /* within 30 to 80 % */
    bool step_fine; /* step at most 10 % of the setting */
    double tolerance; /* share: 0.04, or 0.06 for tools up to 10 N m */
};
/* Source: ISO 6789:2003; US Army TM 1-1500-204-23-9 para 8-3. */
struct wrench_setting wrench_set(const struct wrench *w, double torque);

#endif

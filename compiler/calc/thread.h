/* thread.h - screw threads, metric and Unified, with their areas and limits. */
#ifndef THREAD_H
#define THREAD_H

#include <stdbool.h>
#include <stddef.h>

enum thread_series {
    THREAD_COARSE,   /* ISO 261 coarse, UNC */
    THREAD_FINE,     /* ISO 261 fine, UNF */
    THREAD_EXTRA,    /* UNEF */
    THREAD_CONSTANT, /* UN: 6, 8, 12, 16, 20, 28 or 32 threads an inch */
    THREAD_SPECIAL,  /* UNS */
};

struct thread {
    char name[32]; /* "M8 x 1.25", "1/2-20 UNF" */
    bool unified;
    enum thread_series series;
    double diameter;       /* m, nominal major */
    double pitch;          /* m */
    double pitch_diameter; /* d2 = d - 0.649519 P */
    double root;           /* d3, external: metric d - 1.226869 P, Unified
                              d - 1.299038 P (sharp) */
    double minor;          /* D1, internal, basic: d - 1.082532 P */
    double stress_area;    /* m2: metric pi/4 (d - 0.9382 P)^2, Unified
                              pi/4 (D - 0.9743/n)^2 */
};

enum thread_found {
    THREAD_FOUND,
    THREAD_UNREADABLE,
    THREAD_PITCH_MISSING, /* "1/2": coarse and fine both exist */
    THREAD_UNKNOWN,       /* no standard pairs this pitch with this diameter */
    THREAD_SERIES_WRONG,  /* "1/2-20 UNC" */
};

/* "M8 x 1.25", "M8x1.25", "M8×1.25", "M8" (coarse, as ISO 965-1 writes it),
 * "1/2-20 UNF", "1/2-20", "#10-32", "No. 10-32", "10-32", "1-1/8-12",
 * "1 1/8-12", "0.250-20", with or without "-2A" and the like. */
enum thread_found thread_read(const char *text, size_t len, struct thread *out);

/* Limits of size, m: metric 6g/6H from ISO 965-1 (M3 to M64), Unified 2A/2B by
 * the formulas of ASME B1.1, rounded as printed there. */
struct thread_limits {
    double external_major_min;
    double external_pitch_min;
    double internal_pitch_max;
    double internal_minor_max;
};
/* false when the tables have no such pitch in this diameter range. */
bool thread_limits(const struct thread *t, struct thread_limits *out);

/* Shear areas of the engaged thread for each metre of engagement, m2/m:
 * external AS = pi D1max/P [P/2 + 0.57735 (d2min - D1max)],
 * internal AS = pi dmin/P [P/2 + 0.57735 (dmin - D2max)].
 * Source: FED-STD-H28/2B, ASME B1.1 and B1.13M Appendix B. */
struct thread_shear {
    double external, internal; /* m2/m */
};
bool thread_shear(const struct thread *t, struct thread_shear *out);

#endif

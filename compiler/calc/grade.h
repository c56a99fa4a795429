/* grade.h - strength of bolts, screws, studs and nuts by grade. */
#ifndef GRADE_H
#define GRADE_H

#include <stdbool.h>
#include <stddef.h>

struct grade {
    const char *name;  /* "8.8", "SAE 5", "A2-70" */
    double over, upto; /* nominal diameter, m: over < d <= upto */
    double tensile;    /* Pa, least */
    double yield;      /* Pa, least: ReL or Rp0.2 */
    double proof;      /* Pa; for stainless, which has none, Rp0.2 */
    bool metric;       /* belongs on metric threads */
    bool stainless;    /* gall: needs paste; see the notice */
    bool verified;
    const char *source;
};

enum grade_found {
    GRADE_FOUND,
    GRADE_UNREADABLE,
    GRADE_NO_SIZE, /* the grade is not made, or not given, in this diameter */
};
/* diameter in m. "8.8", "class 8.8", "SAE 5", "grade 5", "SAE J429 grade 5",
 * "A2-70", "A574". For a grade not given in this size *out is the nearest. */
enum grade_found grade_find(const char *name, size_t len, double diameter,
                            const struct grade **out);
const struct grade *grade_at(size_t index); /* NULL past the end */

/* Least stress, Pa, on the bolt's stress area that a nut of full height holds
 * without stripping: metric class "5" to "12", inch "SAE 2", "SAE 5", "SAE 8",
 * stainless "A2-70" and the like. NAN when unknown. All from memory. */
double nut_proof(const char *name, size_t len, const char **source);

#endif

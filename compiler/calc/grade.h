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

/* A nut of full height. All from memory. */
struct nut {
    const char *name;  /* metric class "5" to "12", "SAE 2", "A2-70" */
    double stress;     /* Pa on the bolt's stress area, that it holds without
                          stripping, least */
    double bolt;       /* Pa: the tensile strength in the name of the strongest
                          bolts that it is for */
    bool metric, inch; /* on what threads */
    const char *source;
};
/* On a metric thread "8" is the class, on an inch thread "SAE 8". NULL: none of
 * the name on such threads. */
const struct nut *nut_find(const char *name, size_t len, bool unified);
/* The bolt's class is above those that the nut is for: such a nut strips where
 * the bolt would break. ISO 898-2: a nut of class 8 is for bolts up to 8.8. */
bool nut_is_weaker(const struct nut *nut, const struct grade *bolt);

#endif

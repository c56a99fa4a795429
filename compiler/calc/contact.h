/* contact.h - typical resistances of joints and contacts that the author does
 * not state, each with a range, and what a terminal or contact may carry. */
#ifndef CONTACT_H
#define CONTACT_H

#include "calc/size.h"

#include <stdbool.h>
#include <stddef.h>

struct contact {
    const char *name; /* "crimp", "switch", "relay", "fuse holder", ... */
    double low, typical, high; /* ohm */
    const char *source;
};
const struct contact *contact_find(const char *name, size_t len);
const struct contact *contact_at(size_t index); /* NULL past the end */

/* Quick-connect tabs: current by tab and wire, UL 310. NAN when UL 310 has no
 * figure for the pair. The wire is taken by gauge for AWG, else by the largest
 * gauge not larger in area. */
struct tab {
    const char *name; /* "6.3 mm tab" */
    const char *inch; /* "0.250 in" */
};
const struct tab *tab_find(const char *name, size_t len);
const struct tab *tab_at(size_t index);
double tab_current(const struct tab *t, const struct wire_size *s,
                   bool intermittent, const char **row);
extern const char tab_source[];

/* Insulated crimp terminals by colour. */
struct crimp {
    const char *colour; /* "red" */
    const char *largest_awg, *smallest_awg;
    double from, to; /* m2 */
    const char *source;
};
const struct crimp *crimp_at(size_t index);
/* The colour for a size; NULL when it falls between two barrels. */
const struct crimp *crimp_for(const struct wire_size *s);

/* Least force, N, that a crimped wire must hold. NAN when the standard has no
 * such row. */
enum pull_standard { PULL_UL486A, PULL_AS7928, PULL_IEC60352 };
double crimp_pull(enum pull_standard p, const struct wire_size *s,
                  bool *verified, const char **source);

/* Stud of a ring terminal or post, A: current through the stud itself. */
struct stud {
    const char *name;     /* "M6" */
    double through_brass; /* A, the stud carries it */
    double clamped;       /* A, the stud only clamps */
    double hole;          /* m, of the ring */
    const char *source;
};
const struct stud *stud_find(const char *name, size_t len);
const struct stud *stud_at(size_t index);

/* What share of its resistive rating a contact keeps for another load. */
struct contact_load {
    const char *kind; /* "resistive", "lamp", "motor" */
    double share;
    const char *source;
};
const struct contact_load *contact_load_find(const char *kind, size_t len);
const struct contact_load *contact_load_at(size_t index);

#endif

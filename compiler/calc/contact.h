/* contact.h - joints, contacts and terminals: typical resistances where the
 * author states none, and what a run may carry besides its copper. */
#ifndef CONTACT_H
#define CONTACT_H

#include "calc/size.h"

#include <stdbool.h>
#include <stddef.h>

struct contact_range {
    double low, typical, high; /* ohm */
    const char *source;
};
/* Aged: years in a vehicle, still working; a joint that fails is above. */
struct contact {
    const char *name;           /* "crimp", "switch", "relay contact", ... */
    struct contact_range sound; /* new and clean */
    struct contact_range aged;
};
const struct contact *contact_find(const char *name, size_t len);
const struct contact *contact_at(size_t index); /* NULL past the end */
/* A fuse or breaker of this rating, A: 0.06, 0.1, 0.15 V over the rating; its
 * element does not age. NAN unless the rating is above 0. */
struct contact contact_fuse(double rating);
/* The same in its holder, which ages: the sum of both. */
struct contact contact_fuse_held(double rating);
/* The same between two studs: each as a ring, but both together lose no more
 * than 0.1 V at the rating while they are sound, as a car repair manual quoting
 * SAE allows a high-current connection. */
struct contact contact_fuse_bolted(double rating);

/* Share of its resistive rating that a switch or relay contact keeps for a kind
 * of load: "resistive", "lamp", "motor". */
struct contact_load {
    const char *kind;
    double share;
    const char *source;
};
const struct contact_load *contact_load_find(const char *kind, size_t len);
const struct contact_load *contact_load_at(size_t index);
/* Share of a 12 V rating that is left at a supply voltage: 1 up to 16 V, 0.5 up
 * to 32 V (a relay's 40 A at 12 V is 20 A at 27 V); NAN above. */
double contact_voltage_share(double volt);

/* Quick-connect tabs: steady and intermittent current by tab and wire. */
struct tab {
    const char *name; /* "6.3 mm" */
    const char *inch; /* "0.250 in" */
};
const struct tab *tab_find(const char *name, size_t len); /* either name */
const struct tab *tab_at(size_t index);
/* A; NAN when UL 310 has no figure. An AWG size finds its own row, another size
 * the largest row that is not larger in area, and *row names it. */
double tab_current(const struct tab *t, const struct wire_size *s,
                   bool intermittent, const char **row);
const char *tab_source(void);

/* Insulated crimp terminals by colour. */
struct crimp {
    const char *colour;
    const char *gauges; /* "16 to 14 AWG" */
    double over, upto;  /* m2 of the wire: over < area <= upto */
    const char *source;
};
const struct crimp *crimp_at(size_t index);
const struct crimp *crimp_for(const struct wire_size *s); /* NULL: none */

/* Least force, N, that a crimped wire must hold. */
enum pull_standard { PULL_UL486A, PULL_AS7928, PULL_IEC60352, PULL_STANDARDS };
struct pull {
    double force;    /* N */
    const char *row; /* the row used */
    bool verified;
    const char *source;
};
/* false when the standard has no row for the size: an AWG size needs its own
 * row in the gauge tables; any size may use the largest IEC row not larger. */
bool crimp_pull(enum pull_standard p, const struct wire_size *s,
                struct pull *out);
const char *pull_standard_name(enum pull_standard p);

/* Stud or terminal screw. */
struct stud {
    const char *name; /* "M6" */
    double through;   /* A, a brass stud carries it itself; NAN */
    double clamped;   /* A, the stud only presses lug on lug */
    double hole;      /* m, of the ring; NAN */
    const char *source;
};
const struct stud *stud_find(const char *name, size_t len);
const struct stud *stud_at(size_t index);

#endif

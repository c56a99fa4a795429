/* fuse.h - fuses and breakers: real ratings, colours, opening times, place. */
#ifndef FUSE_H
#define FUSE_H

#include "calc/calculation.h"

#include <stdbool.h>
#include <stddef.h>

struct fuse_rating {
    double amp;
    const char *colour; /* of this style only; NULL where makers differ */
    bool verified;
};

/* One point of the envelope of opening times, at a multiple of the rating. */
struct fuse_time {
    double multiple;
    double shortest; /* s; INFINITY: must not open */
    double longest;  /* s; INFINITY: need not open */
};

struct fuse_style {
    const char *name; /* as the `style` setting writes it: "mini blade" */
    const char *form; /* "ISO 8820-3 type F" */
    const struct fuse_rating *rating; /* rising */
    size_t rating_count;
    bool bolted;           /* between studs, not in contacts of a holder */
    double interrupt;      /* A; NAN when not known: the maker must say */
    double interrupt_volt; /* at which */
    const char *interrupt_source;
    double volt; /* V, that it is made for; NAN when the maker must say */
    const char *volt_source;
    const struct fuse_time *time; /* by rising multiple; NULL when not known */
    size_t time_count;
    const char *time_source;
    bool time_verified; /* false: the page says "unverified" */
    double per_kelvin;  /* rating lost for each K above 25 degC */
    const char *per_kelvin_source;
    double coldest, hottest; /* K, ambient that it is made for */
    const char *ambient_source;
    const char *source; /* of the ratings */
};

const struct fuse_style *fuse_style_find(const char *name, size_t len);
const struct fuse_style *fuse_style_at(size_t index); /* NULL past the end */

/* The rating with this value (within 1e-9), the smallest not below, the largest
 * not above; NULL when there is none. */
const struct fuse_rating *fuse_rating_find(const struct fuse_style *s,
                                           double amp);
const struct fuse_rating *fuse_rating_up(const struct fuse_style *s,
                                         double amp);
const struct fuse_rating *fuse_rating_down(const struct fuse_style *s,
                                           double amp);

/* Of a fuse of this rating, A: "green"; of a style whose makers do not agree,
 * or of a rating that it is not made in, "as its maker's". */
const char *fuse_colour(const struct fuse_style *s, double amp);

/* Whether a fuse stands between studs: by its style or, where that is not known
 * (NULL), for its rating, A, above that of all that are plugged in. */
bool fuse_is_bolted(const struct fuse_style *s, double amp);

/* Interrupting rating at a supply of this voltage, A; NAN when not known, or
 * when the supply is above the voltage that it is given for. */
double fuse_interrupt(const struct fuse_style *s, double volt);

/* Share of the rating that is left at an ambient, K: 1 up to 25 degC, then
 * falling by per_kelvin. NAN outside coldest to hottest. */
double fuse_ambient_factor(const struct fuse_style *s, double ambient);

/* Opening time at a multiple of the rating. Between two points log-log; below
 * the first point shortest and longest are INFINITY; above the last point both
 * fall as 1/multiple^2, as an element that loses no heat does. false when the
 * style has no curve. Shortest and longest fall with the multiple. */
bool fuse_opening(const struct fuse_style *s, double multiple, double *shortest,
                  double *longest);
/* The multiple at which `longest` first is at most t (s); NAN without a curve
 * or for t below its last point. For t = 3600 the conventional fusing current
 * I2, which may be 1.45 Ia at most (from memory: IEC 60364-4-43 433.1). */
double fuse_multiple(const struct fuse_style *s, double t);

/* The curve from multiple `from` on against a wire at ambient ta that starts at
 * ti and must not pass tf (K): *margin is the least of wire time over longest
 * opening time, *worst the multiple where it stands; 1 or more is safe,
 * INFINITY when the wire never gets there. Heat that the wire loses is counted
 * (wire_time). false when the style has no curve. */
struct wire_run;
bool fuse_wire_margin(const struct fuse_style *s, double rating,
                      const struct wire_run *wire, double ti, double ta,
                      double tf, double from, double *margin, double *worst);

enum fuse_result {
    /* A, least rating for a continuous load: I/(share f). I, share, f (ambient
     * factor). fixed: NULL */
    FUSE_LEAST,
    /* A, largest rating for a wire: rule Ia. Ia, rule (1 or 1.5). fixed: NULL
     */
    FUSE_MOST,
    FUSE_RESULTS
};
const struct calculation *fuse_calculation(enum fuse_result r);

/* What 33 CFR 183.455 lets a device be, over the conductor's ampacity. */
struct fuse_rule {
    const char *name;  /* "100 %", "150 %" */
    double share;      /* of the ampacity */
    double below_volt; /* the rule holds below this supply voltage; INFINITY */
    const char *source;
};
const struct fuse_rule *fuse_rule_find(const char *name, size_t len);
const struct fuse_rule *fuse_rule_at(size_t index);

/* How far from its source, along the conductor, a device may stand. */
struct fuse_place {
    bool at_battery;   /* conductor straight from a battery terminal */
    bool sheathed;     /* in sheath or enclosure the whole way */
    double most;       /* m */
    const char *words; /* "72 in, sheathed, from a battery terminal" */
    const char *source;
};
const struct fuse_place *fuse_place_find(bool at_battery, bool sheathed);
const struct fuse_place *fuse_place_at(size_t index);
/* Of a supply that floats both conductors are ungrounded. A question, since
 * sources disagree: a code for small vessels (8.2.2, as imorules.com shows it)
 * asks for double-pole switches there and is silent on a second fuse. */
#define FUSE_EACH_UNGROUNDED                                                   \
    "33 CFR 183.455(a): each ungrounded conductor; 46 CFR 28.860(d): all of "  \
    "them opened at once"

#endif

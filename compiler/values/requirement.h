/* requirement.h - a comparison that must hold, over all variants and ranges.
 *
 * The author's `check` and the rules that come with a block (a wire's drop, a
 * fuse's share) leave the same record; checks/ judges them all alike. */
#ifndef REQUIREMENT_H
#define REQUIREMENT_H

#include "base/place.h"
#include "values/quantity.h"

#include <stdbool.h>
#include <stddef.h>

struct arena;
struct block;
struct values;

enum relation {
    RELATION_AT_MOST,
    RELATION_AT_LEAST,
    RELATION_BELOW,
    RELATION_ABOVE,
    RELATION_EQUAL
};

/* A rule of a block, and of one element of a circuit (or NULL). */
struct slip {
    const char *rule;
    const struct block *block;
    const char *part;
};

struct requirement {
    const struct block *block; /* the wire, fuse, torque or check block */
    size_t variant;
    const char *rule; /* "drop", "ampacity", ... as `override` names it; NULL:
                         the author's own, which nothing overrides */
    const char *what; /* for the page: "voltage drop", or the text as written */
    const char *part; /* of a circuit: "W11"; NULL */
    const struct quantity *left, *right; /* NULL left: never holds (a size that
                                            no table has, a missing input) */
    enum relation relation;
    const char *source;  /* document and clause, or the author's reason */
    const char *cure;    /* the nearest thing that passes, or NULL */
    const char *sizes;   /* two wire sizes compared, in words; else NULL */
    const char *trouble; /* left is NULL: what is wrong */
    bool flag;  /* a warning, not a refusal (FLAG of the hazard catalogue) */
    bool stops; /* never holds, and what follows from it cannot be worked out:
                   no override reaches it */
    struct slip same; /* not told while this one fails and is not set aside: one
                         slip is told once; no rule: told by itself */
    struct span at;
};

/* At least, or above: the left side is the larger one. */
bool requirement_turned(const struct requirement *r);
/* What is left between the sides: the larger less the smaller; for equal sides
 * the difference that falls lower. Neither side is NULL. */
const struct quantity *requirement_room(struct quantity_maker *m,
                                        const struct requirement *r);
/* Whether the room is not below 0 (is above 0) at its low end. Both are taken
 * to 15 digits of the larger side, so that 3 % of 13.5 V is 0.405 V. */
bool requirement_holds(const struct quantity *room,
                       const struct requirement *r);
/* Whether the figures hold as they are printed, rounded outward. Where the
 * ranges overlap only the difference decides: the sides share a root. */
bool requirement_shows(const struct requirement *r);
/* The sides where the requirement is nearest to failing. */
struct requirement_worst {
    double value, limit;
    bool together; /* they share a root: no ends of their ranges */
};
struct requirement_worst requirement_worst(struct arena *a,
                                           const struct quantity *room,
                                           const struct requirement *r);
/* Both. */
bool requirement_met(struct quantity_maker *m, const struct requirement *r);
/* The same for left <= right by themselves. */
bool requirement_at_most(struct quantity_maker *m, const struct quantity *left,
                         const struct quantity *right);

/* For quantities made from those of v after the evaluation. */
struct quantity_maker requirement_maker(const struct values *v);

size_t requirement_count(const struct values *v);
const struct requirement *requirement_at(const struct values *v, size_t i);

#endif

/* census.h - what the guides of a library state and print: each figure with its
 * source, and where it stands on paper. */
#ifndef CENSUS_H
#define CENSUS_H

#include "library/guidework.h"
#include "library/issued.h"

struct census_use {
    const char *guide; /* stem */
    const char *place; /* "step 9", "Electrical data" */
    int page;          /* from 1; 0: not known */
};

/* A figure that somebody wrote, at its one place. */
struct census_figure {
    const char *name;    /* "lamp.run" */
    const char *printed; /* over the variants */
    const char *source;  /* in quotes behind it; "" */
    const char *path;    /* from the library's root */
    size_t line;
    bool shared; /* of facts or a shared file, not of a guide */
    bool known;  /* its name means one thing in the whole library: a fact, a
                    part, a supply, a load, a bolted joint */
    struct census_use *use; /* printed there, or a printed value rests on it */
    size_t use_count, use_room;
};

struct census_tie { /* of a guide to another one */
    const char *id;
    bool after; /* it comes after it, else before */
};

struct census_guide {
    const char *stem, *path;
    struct issued now; /* as it would be issued; copied */
    struct census_tie *tie;
    size_t tie_count, tie_room;
};

struct census {
    struct arena *arena;          /* of all that it holds */
    struct census_figure *figure; /* by path and line */
    size_t count, room;
    struct census_guide *guide;
    size_t guide_count, guide_room;
};

/* Adds a guide that was laid out with `passages`. */
void census_add(struct census *s, const struct guidework *w,
                const struct passages *printed);
/* By path, then line. */
void census_sort(struct census *s);
/* The next figure after `after` that has the name of figure i and says
 * otherwise in another file; count: none. */
size_t census_conflict(const struct census *s, size_t i, size_t after);

/* The guide of an id, or NULL. */
const struct census_guide *census_guide_of(const struct census *s,
                                           const char *id);
#endif

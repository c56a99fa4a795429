/* census.h - what the guides of a library state and print: each figure with its
 * source, and where it stands on paper. */
#ifndef CENSUS_H
#define CENSUS_H

#include "library/guidework.h"
#include "library/issued.h"
#include "values/values.h"

enum { CENSUS_CHAINS = 1024 };

struct census_use {
    const char *guide; /* stem */
    const char *place; /* "step 9", "Electrical data" */
    int page;          /* from 1; 0: not known */
};

/* A figure at its one place. */
struct census_figure {
    const char *name;    /* "lamp.run", "R1 lost in the joint, lamp on" */
    const char *printed; /* over the variants */
    const char *source;  /* in quotes behind it; "" */
    const char *origin;  /* "": somebody wrote it under its name; else how it
                            came there: "limit of a reading", "worked out" */
    const char *path;    /* from the library's root */
    size_t line;
    bool shared;         /* of facts or a shared file, not of a guide */
    const char *key;     /* what it is called all over the library: of a fact, a
                            part, a supply, a load, a bolted joint its name, of a
                            limit what is measured; NULL: called so here alone */
    const char *vehicle; /* that it is of; NULL: of none, or of several */
    variant_set in;      /* variants of that one */
    struct census_use *use; /* printed there, or a printed value rests on it */
    size_t use_count, use_room;
    size_t next; /* in its chain, + 1 */
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

/* Two files that state one thing differently. */
struct census_conflict {
    const struct census_figure *one, *other;
};

struct census_missing { /* a number that no guide of the library has */
    const struct census_guide *guide;
    const struct census_tie *tie;
};

struct census {
    struct arena *arena;          /* of all that it holds */
    struct census_figure *figure; /* by path and line */
    size_t count, room;
    size_t chain[CENSUS_CHAINS]; /* while guides are added, by line, + 1 */
    struct census_guide *guide;
    size_t guide_count, guide_room;
    /* What census_settle() found. */
    struct census_conflict *conflict;
    size_t conflict_count, conflict_room;
    struct census_missing *missing;
    size_t missing_count, missing_room;
};

/* Adds a guide that was laid out with `passages`. */
void census_add(struct census *s, const struct guidework *w,
                const struct passages *printed);
/* After the last guide: figures by path, then line; conflicts and missing
 * guides in the order of the files that state them. */
void census_settle(struct census *s);

/* The guide of an id, or NULL. */
const struct census_guide *census_guide_of(const struct census *s,
                                           const char *id);
#endif

/* circuit_rating.h - what the parts of a circuit may carry and break, as their
 * words or their blocks say. */
#ifndef CIRCUIT_RATING_H
#define CIRCUIT_RATING_H

#include "values/circuit_solve.h"

struct fuse_style; /* calc/fuse.h */

/* A, of a wire at its ambient, after all factors (ampacity.h). */
const struct quantity *circuit_rating_ampacity(const struct circuit_work *w,
                                               size_t wire);

/* A share of a rating, in its unit. */
const struct quantity *circuit_rating_share(const struct circuit_work *w,
                                            const struct quantity *rating,
                                            double share);

/* Of a fuse or breaker: among its words, `blade` or `15 A blade`; NULL: it says
 * none there. */
const struct fuse_style *
circuit_rating_said(const struct circuit_element *fuse);
/* The fuse block of the name of a fuse or breaker; NULL: there is none. */
const struct block *circuit_rating_block(const struct circuit_work *w,
                                         size_t part);

/* Of a fuse or breaker: by its block, or among its words; NULL: not told. */
const struct fuse_style *circuit_rating_style(const struct circuit_work *w,
                                              size_t part);

/* K, of a fuse without a block: as hot as the hottest wire at its ends, and at
 * least what ratings are given for. */
double circuit_rating_ambient(const struct circuit_work *w, size_t fuse);

/* What a fuse or breaker can break. */
struct circuit_breaking {
    const struct block *block;    /* the fuse block of its name, or NULL */
    const struct quantity *limit; /* NULL: not known */
    const char *source;
    double upto; /* V, up to which alone the figure of its style holds; 0 */
};
/* `breaks 2 kA` or a style among its words; else of its block. The style's
 * figure is for a supply of `volt`. */
struct circuit_breaking circuit_rating_breaks(const struct circuit_work *w,
                                              size_t part, double volt);

/* What a switch, contact, connector, splice or joint may carry. */
struct circuit_carrying {
    const struct quantity *rating; /* NULL: not known */
    const char *rule;              /* "contact", "tab", "stud" */
    const char *load;              /* kind of load that it is for */
    const char *source;            /* NULL: nothing is stated */
};
/* `20 A` (into a resistive load at 12 V), `15 A lamp` or `15 A motor` among its
 * words, by their maker; a quick-connect `tab 6.3 mm` on the thinner of the
 * wires beside it; the stud of a `ring M8`. */
struct circuit_carrying circuit_rating_carries(const struct circuit_work *w,
                                               size_t part);
/* `900 A cranking` among its words: while an engine is cranked, whatever its
 * load. */
struct circuit_carrying circuit_rating_cranks(const struct circuit_work *w,
                                              size_t part);

#endif

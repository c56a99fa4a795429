/* circuit_rating.h - what the parts of a circuit may carry and break, as their
 * words or their blocks say. */
#ifndef CIRCUIT_RATING_H
#define CIRCUIT_RATING_H

#include "values/circuit_solve.h"

/* What a fuse or breaker can break. */
struct circuit_breaking {
    const struct block *block;    /* the fuse block of its name, or NULL */
    const struct quantity *limit; /* NULL: not known */
    const char *source;
};
/* `breaks 2 kA` or a style among its words; else of its block. The style's
 * figure is for a supply of `volt`. */
struct circuit_breaking circuit_rating_breaks(const struct circuit_work *w,
                                              size_t part, double volt);

#endif

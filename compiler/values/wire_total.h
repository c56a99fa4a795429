/* wire_total.h - the wire that a guide's circuits and runs need, by size and
 * colour. */
#ifndef WIRE_TOTAL_H
#define WIRE_TOTAL_H

#include "source/tree.h"
#include "values/values.h"

struct wire_total {
    const struct wire_size *size;
    struct text
        colour[2];  /* insulation and tracer; absent where none is said */
    double *length; /* by variant, m, at the longest, without spare; 0: none */
};

/* For the variants that apply, in the order of the guide. Circuits as found
 * need none, nor does a wire that one of them has by the same name. A run that
 * a circuit names counts there. */
size_t wire_totals(const struct values *v, struct arena *a,
                   const struct wire_total **list);

/* The ends of that wire, each to be crimped. */
struct wire_ends {
    const struct wire_size *size;
    size_t *count; /* by variant */
};
size_t wire_ends(const struct values *v, struct arena *a,
                 struct wire_ends **list);

#endif

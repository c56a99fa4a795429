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

struct wire_ends { /* of that wire, each to be crimped */
    const struct wire_size *size;
    size_t *count; /* by variant */
};

struct wire_needs {
    struct wire_total *total;
    size_t total_count;
    struct wire_ends *ends;
    size_t ends_count;
};

/* For the variants that apply, in the order of the guide. Circuits as found
 * need none, nor does a wire that one of them has by the same name. A run that
 * a circuit names counts there. */
struct wire_needs wire_needs(const struct values *v, struct arena *a);

#endif

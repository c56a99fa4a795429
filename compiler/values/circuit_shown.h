/* circuit_shown.h - what stands beside an element in the drawing of its
 * circuit.
 */
#ifndef CIRCUIT_SHOWN_H
#define CIRCUIT_SHOWN_H

#include "values/values.h"

/* Over a set of variants: sizes and ratings "10 AWG; mark 3: 8 AWG" where they
 * differ, lengths and currents "4 m to 5 m". NULL: it has no such figure, or it
 * could not be read. */
struct circuit_shown {
    const char *size;    /* of a wire: "10 AWG" */
    const char *length;  /* of a wire: "2.5 m" */
    const char *rating;  /* of a fuse or breaker: "30 A" */
    const char *current; /* of a load or coil that states one: "8.8 A" */
};

struct circuit_shown circuit_shown(const struct values *v, struct arena *a,
                                   const struct block *b, size_t element,
                                   variant_set set);

#endif

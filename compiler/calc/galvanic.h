/* galvanic.h - two metals in one joint: how far apart they stand. */
#ifndef GALVANIC_H
#define GALVANIC_H

#include <stdbool.h>
#include <stddef.h>

struct metal {
    const char *name; /* "steel", "tinned copper", ... */
    double index;     /* V below gold */
    char group;       /* 'A' to 'D' of MIL-HDBK-419A, 0 where it has none */
    bool verified;
    const char *source;
};
const struct metal *metal_find(const char *name, size_t len);
const struct metal *metal_at(size_t index); /* NULL past the end */

struct exposure {
    const char *name; /* "harsh", "normal", "controlled" */
    double most;      /* V of difference */
    const char *source;
};
const struct exposure *exposure_find(const char *name, size_t len);
const struct exposure *exposure_at(size_t index);

struct galvanic_pair {
    double difference;          /* V */
    const struct metal *wastes; /* the less noble one; NULL when equal */
    bool allowed;               /* difference not above the exposure's */
};
struct galvanic_pair galvanic_compare(const struct metal *a,
                                      const struct metal *b,
                                      const struct exposure *e);

#endif

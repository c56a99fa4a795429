/* galvanic.h - two metals in one joint: how far apart they stand. */
#ifndef GALVANIC_H
#define GALVANIC_H

#include <stdbool.h>
#include <stddef.h>

/* A plated part counts as its plating. */
struct metal {
    const char *name; /* "steel", "tin plated", "copper", ... */
    double index;     /* V below gold, anodic index */
    char group;       /* 'A' to 'D' of MIL-HDBK-419A; 0: not listed */
    bool verified;
};
const struct metal *metal_find(const char *name, size_t len);
const struct metal *metal_at(size_t index); /* NULL past the end */
const char *metal_source(void);

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
    bool allowed;               /* not above the exposure's difference */
    bool same_group;            /* MIL-HDBK-419A: may be bonded bare */
};
struct galvanic_pair galvanic_compare(const struct metal *a,
                                      const struct metal *b,
                                      const struct exposure *e);

#endif

/* electrical.h - what wire and fuse blocks share: the supply and the load that
 * they name, and a wire as it was computed. */
#ifndef ELECTRICAL_H
#define ELECTRICAL_H

#include "calc/wire.h"
#include "values/model.h"

/* A supply as a wire or fuse sees it. */
struct feed {
    struct quantity *base;             /* voltage that per cent refer to */
    struct quantity *strongest;        /* for the largest fault current */
    struct quantity *weakest;          /* for the smallest */
    const struct quantity *resistance; /* inner; assumed when not written */
    bool bad; /* something of the supply has a message already */
};
/* "house", "house charging": the block's name, then which of its voltages. */
void electrical_split(struct text supply, struct text *name,
                      struct text *state);
/* `supply` of a block; false when absent or BAD. */
bool electrical_feed(struct values *v, const struct block *b, size_t variant,
                     struct feed *out);

/* Current of a `load` setting: its `highest` where the load has one, else its
 * `current`. NULL when absent or BAD. */
struct quantity *electrical_current(struct values *v, const struct block *b,
                                    size_t variant);

/* A wire block after its computation, for the fuse that protects it. */
struct wire_outcome {
    const struct quantity *current, *ampacity, *length; /* of conductor */
    const struct quantity *per_metre;                   /* ohm/m at 20 degC */
    const struct quantity *ambient, *temperature;       /* of the conductor */
    const struct wire_run *run;
    const struct wire_size *size;
    const char *rejected; /* why smaller sizes fail, a line each */
    enum material material;
    double insulation; /* K */
    bool continuous, cranking;
    struct feed feed;
    bool has_feed;
};
/* Computes the wire block where that was not done; NULL when it failed. */
const struct wire_outcome *
electrical_wire(struct values *v, const struct block *wire, size_t variant);

/* Requirements and the field `pull`, once the size is known. */
void weak_link_require(struct values *v, const struct block *b, size_t variant,
                       const struct wire_outcome *o);

#endif

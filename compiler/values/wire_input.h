/* wire_input.h - what a `wire` block says, before a size is known. */
#ifndef WIRE_INPUT_H
#define WIRE_INPUT_H

#include "values/electrical.h"

struct wire_inputs {
    const struct block *block;
    size_t variant;
    enum wire_system system;
    enum material material;
    enum ampacity_table table;
    double insulation; /* K */
    int bundle;
    bool intermittent, engine_space, cranking;
    struct quantity *current;      /* at the voltage of the drop limit */
    struct quantity *most;         /* at the worst voltage of the supply */
    const struct quantity *stated; /* as the load says it */
    struct quantity *length;
    const struct quantity
        *loaded; /* length by the current in each part of it */
    const struct quantity *ambient, *joints;
    const struct quantity *limit; /* of the drop; NULL: no supply is known */
    const char *limit_source;
    /* Where both hang on the supply's voltage, at its low and its high end:
     * there a size holds or fails, and no range need be searched (the lost
     * share of a voltage has its largest value at an end, since its logarithm
     * is a convex function of the voltage for every kind of load). */
    struct wire_end {
        const struct quantity *current, *limit;
    } end[2];
    bool by_ends;
    const struct quantity *terminals, *cranking_time;
    struct feed feed;
    bool has_feed;
    bool none_passes;   /* no size does: the largest was taken */
    struct span use_at; /* where a failed check points: `use`, or the block */
};

/* s of one cranking, assumed of the block and listed. */
const struct quantity *
wire_input_cranking(struct values *v, const struct block *b, size_t variant);
/* K, of a conductor after one cranking of that time, from the ambient on. */
struct quantity *
wire_input_cranked(struct values *v, const struct wire_size *size,
                   enum material material, const struct quantity *current,
                   const struct quantity *time, const struct quantity *ambient);
/* Reads the settings; what is not said is assumed at its worst and listed.
 * false after a message. */
bool wire_input_read(struct values *v, const struct block *b, size_t variant,
                     struct wire_inputs *w);

#endif

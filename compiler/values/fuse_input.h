/* fuse_input.h - what a `fuse` block says, before a rating is known. */
#ifndef FUSE_INPUT_H
#define FUSE_INPUT_H

#include "calc/fuse.h"
#include "values/electrical.h"

struct fuse_inputs {
    const struct block *block;
    size_t variant;
    const struct fuse_style *style;
    const struct fuse_rule *rule;
    const struct block *const *wire;
    const struct wire_outcome **outcome; /* of each */
    size_t wire_count;
    const struct quantity *current; /* its own, or the largest of its wires' */
    const struct quantity *share, *factor;
    const struct quantity *lasting; /* share of a load that stays on */
    const char *share_source;
    struct feed feed;
    bool has_feed;
    struct feed at; /* the supply that it stands at, where that is another */
    bool has_at;
    struct span use_at;
};

/* Share of the rating that a load may take which is on for hours: common
 * practice, no source. */
#define FUSE_INPUT_LASTING 0.8

/* Why a load may take so much of the rating. `share`: of the fuse block; NULL:
 * it states none. */
const char *fuse_input_share(struct values *v, const struct value *share,
                             bool continuous);

/* Reads the settings, the wires computed first; what is not said is assumed at
 * its worst and listed. false after a message. */
bool fuse_input_read(struct values *v, const struct block *b, size_t variant,
                     struct fuse_inputs *f);

/* Why a style is not for an ambient, K. */
const char *fuse_ambient_trouble(struct arena *a,
                                 const struct fuse_style *style, double kelvin);
/* Why a style is not for a voltage, V, and what to do. */
const char *fuse_volt_trouble(struct arena *a, const struct fuse_style *style,
                              double volt);
#define FUSE_VOLT_CURE                                                         \
    "a style for that voltage, such as class T, or override voltage with "     \
    "what its maker marks on it"

#endif

/* fuse_time.h - a fuse against time: starting currents and faults. */
#ifndef FUSE_TIME_H
#define FUSE_TIME_H

#include "calc/fuse.h"
#include "values/electrical.h"

struct fuse_case {
    const struct block *block;
    size_t variant;
    const struct fuse_style *style;
    double rating;  /* A */
    double from;    /* multiple of the rating at the least short; 0: not known,
                       then from the conventional fusing current on */
    struct span at; /* where a failed check points */
};

/* Of its opening times, for the note of a check. */
const char *fuse_time_source(struct values *v, const struct fuse_style *style);

/* Whether a rating holds while the load of the wire starts; true where the load
 * has no `starting` or the style no curve. */
bool fuse_time_holds_start(struct values *v, const struct fuse_case *f,
                           const struct block *wire);
/* What 3.5 times the rating is taken from: it opens a blade fuse within half a
 * second. NULL: none is named. */
const char *fuse_time_opening(struct values *v, const struct fuse_style *style);
/* Requirements of one wire behind the fuse. A style without a curve leaves an
 * assumption. */
void fuse_time_require(struct values *v, const struct fuse_case *f,
                       const struct block *wire,
                       const struct wire_outcome *outcome);

#endif

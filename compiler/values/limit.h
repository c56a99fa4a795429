/* limit.h - the limit of a row of `limits` as a band. */
#ifndef LIMIT_H
#define LIMIT_H

#include "values/model.h"

struct limit_band {
    double low, high;            /* SI; infinite where there is no end */
    const struct quantity *like; /* an end of it: its dimension, its unit */
};

/* A figure without a width: no reading meets it, and which side of it is good
 * was not said. */
bool limit_is_single(const struct value *value);

/* Whether the limit is "yes" or "no": what is looked at and has no figure, such
 * as a leak. */
bool limit_is_answer(struct values *v, const struct block *b,
                     const struct cell *limit, size_t variant, bool *answer);

/* Limits that are ranges themselves are taken at their narrow ends. False when
 * the cell holds no limit or a single figure, or after a message. */
bool limit_band(struct values *v, const struct block *b,
                const struct cell *limit, size_t variant,
                struct limit_band *out);

#endif

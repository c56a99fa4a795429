/* trial.h - the same guide with one wire in another size: what would pass? */
#ifndef TRIAL_H
#define TRIAL_H

#include "calc/size.h"
#include "stages.h"
#include "values/requirement.h"
#include "values/values.h"

struct trial_size {
    const struct block *wire;
    const struct wire_size *size;
};

struct values *values_evaluate_with(struct compile *c, const struct guide *g,
                                    const struct trial_size *trial);
/* The size of a wire block when the requirement's figures rest on it in its
 * variant, else NULL. */
const struct wire_size *trial_rests_on(const struct values *v,
                                       const struct requirement *r,
                                       const struct block *wire);
/* Unrounded, at the worst end. */
bool requirement_met(const struct values *v, const struct requirement *r);

#endif

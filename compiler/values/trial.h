/* trial.h - the same guide with one wire in another size: what would pass? */
#ifndef TRIAL_H
#define TRIAL_H

#include "calc/size.h"
#include "stages.h"
#include "values/requirement.h"
#include "values/values.h"

struct trial;

/* The names of the guide once more; nothing is evaluated yet. Lives in the
 * arena of c, whose messages nobody needs to read. */
struct trial *trial_new(struct compile *c, const struct guide *g);
/* Whether the requirement is met with a wire in this size. Evaluates what the
 * requirement rests on, in its variant. */
bool trial_passes(struct trial *t, const struct requirement *r,
                  const struct block *wire, const struct wire_size *size);

/* The wires, by their size as computed, on which a requirement's figures rest
 * in its variant; returns the count. */
struct trial_wire {
    const struct block *block;
    const struct wire_size *size;
};
size_t trial_wires(const struct values *v, struct arena *a,
                   const struct requirement *r, const struct trial_wire **list);

#endif

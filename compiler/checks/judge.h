/* judge.h - requirements judged over their ranges and their printed figures. */
#ifndef JUDGE_H
#define JUDGE_H

#include "checks/findings.h"
#include "stages.h"
#include "values/requirement.h"

struct verdicts {
    struct verdict *list;
    size_t count, room;
    struct waiving *override; /* the override blocks of the guide */
    size_t override_count;
};

/* Judges every requirement; one that fails is a message, also where an
 * override lets it through.
 * Requirements that differ in nothing printed but the variant become one. */
void judge_all(struct compile *c, const struct guide *g, const struct values *v,
               struct verdicts *out);

#endif

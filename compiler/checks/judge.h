/* judge.h - requirements judged over their ranges and their printed figures. */
#ifndef JUDGE_H
#define JUDGE_H

#include "checks/findings.h"
#include "stages.h"
#include "values/requirement.h"

struct verdicts {
    struct verdict *list;
    size_t count, room;
    const struct block **override; /* the override blocks of the guide */
    bool *used;                    /* each of them: it sets something aside */
    size_t override_count;
};

/* Judges every requirement; a failed one that no override names is a message.
 * Requirements that differ in nothing printed but the variant become one. */
void judge_all(struct compile *c, const struct guide *g, const struct values *v,
               struct verdicts *out);
/* Lists the overrides for the page, once all rules had their say; one that sets
 * nothing aside is questioned. */
const struct waiver *judge_waivers(struct compile *c, const struct verdicts *v);
/* The override that names this rule for this block (NULL: for none), which is
 * used by that; NULL when there is none. */
const struct block *judge_override(const struct verdicts *v, const char *rule,
                                   const struct block *at);

#endif

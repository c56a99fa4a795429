/* judge.h - requirements judged over their ranges and their printed figures. */
#ifndef JUDGE_H
#define JUDGE_H

#include "checks/findings.h"
#include "stages.h"
#include "values/requirement.h"

struct verdicts {
    struct verdict *list;
    size_t count, room;
    struct waiver *waiver;
    size_t waiver_count;
    bool *used; /* by block index: this override sets something aside */
};

/* Judges every requirement; a failed one that no override names is a message.
 * Requirements that differ in nothing printed but the variant become one. */
void judge_all(struct compile *c, const struct guide *g, const struct values *v,
               struct verdicts *out);
/* Lists the overrides for the page, once all rules had their say; one that sets
 * nothing aside is questioned. */
void judge_waivers(struct compile *c, const struct guide *g,
                   struct verdicts *out);
/* Whether an override of the guide names this rule for this block. */
const struct block *judge_override(const struct guide *g, const char *rule,
                                   const struct block *at);

#endif

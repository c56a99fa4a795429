/* waiver.h - `override` blocks: which rule each sets aside, and where. */
#ifndef WAIVER_H
#define WAIVER_H

#include "base/text.h"
#include "checks/findings.h"
#include "stages.h"

struct verdicts;

/* An override block at work. */
struct waiving {
    const struct block *block;
    const struct block *in; /* the only one that it is for, of that it was
                               asked for; NULL: it has no `at` */
    bool narrow;            /* its `at` named what it was asked for */
    bool used;              /* it sets something aside */
    bool wide;              /* it was told that it names too much */
};

/* Lists the override blocks of the guide. */
void waiver_begin(struct compile *c, const struct guide *g,
                  struct verdicts *out);
/* The override that names this rule for this block, and element of a circuit
 * (either NULL: for none); NULL when there is none. `narrow` is set where it
 * names the element, or a block that is no circuit. */
struct waiving *waiver_find(const struct verdicts *v, const char *rule,
                            const struct block *at, const char *part);
/* Whether a rule is overridden for a block (NULL: for the whole guide), which
 * the override is then used for. */
bool waiver_covers(const struct verdicts *v, const char *rule,
                   const struct block *at);
/* A setting of the block in one line; "" when it is not written. */
const char *waiver_setting(struct arena *a, const struct block *b,
                           const char *name);
/* "F3 of circuit bank", "fuse F1", "W5" */
void waiver_put_place(struct buf *b, const struct block *block,
                      const char *part);
/* Lists the overrides for the page, once all rules had their say; one that sets
 * nothing aside is questioned, and so is each name in its `at` that does not.
 */
const struct waiver *waiver_list(struct compile *c, const struct guide *g,
                                 const struct verdicts *v);

#endif

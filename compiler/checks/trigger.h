/* trigger.h - what the blocks of a guide expose a person to, by row of the
 * hazard catalogue: fault current, heat, line voltage, a live battery. */
#ifndef TRIGGER_H
#define TRIGGER_H

#include "checks/judge.h"
#include "checks/walk.h"

/* One computed trigger. */
struct trigger {
    const char *row;
    bool fires;
    const struct block **block; /* that make it fire */
    size_t block_count;
};

/* Figures and words for the wording of the rows. */
struct trigger_text {
    const char *fault_current; /* "1.8 kA" */
    const char *place, *limit; /* of an unfused cable */
    const char *load;          /* on the stands */
};

enum { TRIGGER_ROWS = 6 };

struct triggers {
    const struct guide *guide;
    struct trigger row[TRIGGER_ROWS];
    size_t row_count;
    bool lead_acid; /* a battery that may give off gas, or one not described */
    struct trigger_text text;
};

void trigger_find(struct compile *c, const struct guide *g,
                  const struct values *v, const struct verdicts *judged,
                  struct triggers *out);
const struct trigger *trigger_of(const struct triggers *e, const char *row);
/* A row that cannot arise here whatever a mark says: gas from lithium. */
bool trigger_rules_out(const struct triggers *e, const char *row);
/* Whether the step names a torque block whose `joint` is this tag. */
bool trigger_has_joint(const struct triggers *e, const struct step_words *s,
                       struct text tag);
const char *trigger_word(const struct trigger_text *t, struct text name);
/* The first step of the Procedure, or of the guide. */
const struct step_words *trigger_first_step(const struct steps *s);

#endif

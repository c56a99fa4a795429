/* trigger.h - what the blocks of a guide expose a person to, by row of the
 * hazard catalogue and its conditions. */
#ifndef TRIGGER_H
#define TRIGGER_H

#include "checks/catalogue.h"
#include "checks/walk.h"

struct verdicts;

/* One computed trigger. */
struct trigger {
    const char *row;
    bool fires;
    bool *by;            /* by block index: this block makes it fire */
    const char *unknown; /* "charging: and limits: of house": it fires for the
                            want of these alone; NULL: by what is stated */
};

/* Figures and words for the wording of the rows. */
struct trigger_text {
    const char *fault_current; /* "1.8 kA" */
    const char *place, *limit; /* of an unfused cable */
    const char *load;          /* on the stands */
    const char *again;         /* " Tighten again after 50 miles."; NULL: no
                                  joint says when */
    bool isolated;             /* no post is grounded */
};

struct triggers {
    struct trigger *row; /* of the rows that are computed at all */
    size_t row_count;
    bool lead_acid; /* a battery that may give off gas, or one not described */
    struct trigger_text text;
};

void trigger_find(struct compile *c, const struct guide *g,
                  const struct values *v, const struct catalogue *k,
                  const struct verdicts *judged, struct triggers *out);
/* Whether each supply says that no post of it is grounded: what is not stated
 * may be. */
bool trigger_is_isolated(const struct guide *g, const struct values *v);
/* NULL: nothing is computed for this row. */
const struct trigger *trigger_of(const struct triggers *e, const char *row);
/* Whether the step names a block that makes it fire. */
bool trigger_meets(const struct trigger *t, const struct step_words *s);
/* Whether the step names a torque block whose `joint` is this tag. */
bool trigger_has_joint(const struct values *v, const struct step_words *s,
                       struct text tag);
/* `joint: brake`, its own or its file's default, is the tag "brake"; `joint:
 * LPG` also "LPG joint". */
bool trigger_is_joint(const struct values *v, const struct block *b,
                      struct text tag);
const char *trigger_word(const struct trigger_text *t, struct text name);

#endif

/* exposure.h - what the blocks of a guide expose a person to, by row of the
 * hazard catalogue: fault current, heat, line voltage, a live battery. */
#ifndef EXPOSURE_H
#define EXPOSURE_H

#include "checks/judge.h"
#include "checks/walk.h"

/* One computed trigger. */
struct exposed {
    const char *row;
    bool fires;
    const struct block **block; /* that make it fire */
    size_t block_count;
};

/* Figures and words for the wording of the rows. */
struct exposure_text {
    const char *fault_current; /* "1.8 kA" */
    const char *place, *limit; /* of an unfused cable */
};

enum { EXPOSURE_ROWS = 6 };

struct exposure {
    const struct guide *guide;
    struct exposed row[EXPOSURE_ROWS];
    size_t row_count;
    bool lead_acid; /* a battery that may give off gas, or one not described */
    struct exposure_text text;
};

void exposure_find(struct compile *c, const struct guide *g,
                   const struct values *v, const struct verdicts *judged,
                   struct exposure *out);
const struct exposed *exposure_of(const struct exposure *e, const char *row);
/* A row that cannot arise here whatever a mark says: gas from lithium. */
bool exposure_rules_out(const struct exposure *e, const char *row);
/* Whether the step names a torque block whose `joint` is this tag. */
bool exposure_has_joint(const struct exposure *e, const struct step_words *s,
                        struct text tag);
const char *exposure_word(const struct exposure_text *t, struct text name);
/* The first step of the Procedure, or of the guide. */
const struct step_words *exposure_first_step(const struct steps *s);

#endif

/* findings.h - what checks_run leaves: verdicts, cautions, overrides. */
#ifndef FINDINGS_H
#define FINDINGS_H

#include "base/text.h"
#include "values/values.h"

#include <stdbool.h>
#include <stddef.h>

struct block;
struct node;

enum signal { SIGNAL_DANGER, SIGNAL_WARNING, SIGNAL_CAUTION, SIGNAL_NOTICE };

/* A panel that the rules call for. Panels that the author wrote are blocks of
 * kind danger, warning, caution, notice and stand in the tree. */
struct caution {
    const char *row; /* "H01" */
    enum signal signal;
    const char *title; /* for the safety summary: "Live battery circuit" */
    const char *hazard, *consequence, *avoidance; /* sentences */
    const char **symbols; /* "electricity", "battery gas", ...; may be empty */
    size_t symbol_count;
    const char *defer;         /* who must do it, or NULL */
    const struct node *before; /* the step that it guards */
    variant_set variants;
};

/* One check of one block or requirement, for the annex. */
struct verdict {
    const struct block *block;
    const char *rule;  /* "drop", "H05": as an override names it; or NULL */
    const char *what;  /* "voltage drop", or the author's comparison */
    const char *part;  /* of a circuit: "W11"; NULL */
    const char *value; /* worst end as printed */
    const char *limit;
    const char *margin; /* "0.09 V" or "18 %" */
    double slack; /* what is left over, as a share of the limit; negative when
                     it fails; INFINITY where there is no number */
    const char *source; /* the rule's document, or the author's reason */
    bool holds;
    bool too_little; /* the value, where it does not hold */
    bool overridden;
    bool flag; /* does not hold, but only questions the guide */
    variant_set variants;
};

/* A rule set aside by name: printed on the page. */
struct waiver {
    const struct block *block; /* the override block; NULL: the shop's
                                  catalogue says so */
    const char *rule, *at, *reason, *approver;
};

/* A step that a row of the catalogue leaves to others. */
struct deferral {
    const struct node *step; /* an outermost one */
    const char *row, *who;   /* who: NULL where the row names nobody */
    bool shop_only;          /* no owner is told to do it */
};

struct findings {
    const struct caution
        *caution; /* in the order of the steps, highest first */
    size_t caution_count;
    const struct verdict *verdict;
    size_t verdict_count;
    const struct waiver *waiver;
    size_t waiver_count;
    const struct deferral *deferral;
    size_t deferral_count;
};

#endif

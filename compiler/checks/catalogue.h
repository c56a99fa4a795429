/* catalogue.h - the hazard catalogue: what a guide must warn of by itself, in
 * which order steps may stand, how they should read. */
#ifndef CATALOGUE_H
#define CATALOGUE_H

#include "checks/condition.h"
#include "checks/findings.h"
#include "stages.h"

#include <stdbool.h>

enum hazard_action { ACTION_INSERT, ACTION_FLAG, ACTION_REFUSE };

/* Items of a setting that is a list: words of marks, or phrases. */
struct items {
    struct text *item;
    size_t count;
};

struct hazard {
    const char *id; /* "H01" */
    const char *title;
    enum signal signal;
    enum hazard_action action;
    const char *hazard, *consequence, *avoidance; /* may hold {fault.current} */
    const char **symbols;
    size_t symbol_count;
    struct items tags;    /* words of {touches} and {does} */
    struct items with;    /* the same, in the model years below */
    int first, last;      /* model years; 0 and INT_MAX where there is no end */
    struct items words;   /* phrases that ask for a mark */
    struct items settled; /* words of marks that answer the question, too */
    struct condition *when;
    size_t when_count;
    bool spares_lithium; /* `unless: no lead-acid battery` */
    bool shop_only;
    const char *cure, *defer, *source; /* NULL when not written */
};

/* A state that a step finds: set by one sort of step, ended by another. With
 * `needs` the step must find it, with `from` it must not. */
struct order {
    const char *id, *title, *cure, *source;
    struct items step, step_words;
    struct items set, set_words, end, end_words;
    bool wanted;
    bool grounded; /* not asked where no post of a supply is grounded */
};

struct style_rule {
    const char *id, *title;
    struct items words, verbs, names;
    size_t most_words, most_commands; /* 0: no such rule */
};

struct catalogue {
    struct hazard *row;
    size_t count;
    struct order *order;
    size_t order_count;
    struct style_rule *style;
    size_t style_count;
    struct waiver *lowered; /* by the shop, with its reasons */
    size_t lowered_count;
};

/* The one that is linked in, and over it the library's own templates/hazards.md
 * where there is one: it adds rows and words, and weakens none without a
 * reason. The one of c->catalogue where that is there. NULL after a message. */
const struct catalogue *catalogue_read(struct compile *c);
/* For many guides of one library, read once: NULL after any message, so that
 * each guide reads its own and says what is wrong with it. */
const struct catalogue *catalogue_shared(struct compile *c);
/* The one that is linked in. */
const struct catalogue *catalogue_shipped(struct compile *c);
const struct hazard *catalogue_find(const struct catalogue *k, const char *id);
bool catalogue_lists(const struct items *list, struct text word);

#endif

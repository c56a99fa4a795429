/* catalogue.h - the hazard catalogue: what a guide must warn of by itself. */
#ifndef CATALOGUE_H
#define CATALOGUE_H

#include "checks/findings.h"
#include "stages.h"

#include <stdbool.h>

enum hazard_action { ACTION_INSERT, ACTION_FLAG, ACTION_REFUSE };

struct hazard {
    const char *id; /* "H01" */
    const char *title;
    enum signal signal;
    enum hazard_action action;
    const char *hazard, *consequence, *avoidance; /* may hold {fault.current} */
    const char **symbols;
    size_t symbol_count;
    struct text *tags; /* words of {touches} and {does} */
    size_t tag_count;
    const char *defer, *source; /* NULL when not written */
};

struct catalogue {
    struct hazard *row;
    size_t count;
};

/* The library's own templates/hazards.md, else the one that is linked in. NULL
 * after a message. */
const struct catalogue *catalogue_read(struct compile *c);
/* The one that is linked in. */
const struct catalogue *catalogue_shipped(struct compile *c);
const struct hazard *catalogue_find(const struct catalogue *k, const char *id);

#endif

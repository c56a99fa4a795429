/* drift.h - drawings that may leave their place, so that no page stays half
 * empty before them: to the top of a page, or right below the heading of their
 * section. They move among tables only, in their order, never past a step. */
#ifndef DRIFT_H
#define DRIFT_H

#include "layout/flow.h"

struct drift {
    size_t from, to;    /* slabs of one drawing with its caption and key */
    size_t first, last; /* where it may begin */
    bool heads;         /* `first` is right below a heading */
    bool open;          /* `last` is not known yet */
};

/* Drawings from here on may move back to this place; `heads` if it is right
 * below a heading and nothing that must be read first follows. */
void drift_begin(struct flow *f, bool heads);
/* None moves past this place. */
void drift_end(struct flow *f);
/* The slabs added since then are a drawing that may move. */
void drift_add(struct flow *f, size_t from);
/* Moves the drawings before which a page would stay empty to where the pages
 * cost least; the flow is complete. */
void drift_settle(struct flow *f);

#endif

/* deference.h - work that is left to others: who may do it, and who may not. */
#ifndef DEFERENCE_H
#define DEFERENCE_H

#include "base/diag.h"
#include "checks/catalogue.h"
#include "source/tree.h"

struct deference {
    struct text
        who; /* as {defer} or the catalogue names them; absent: nobody */
    const char *row; /* of the catalogue, or NULL */
    bool shop_only;  /* {shop only}, or a row that no owner may do */
};

/* What holds for a step, by its marks, those above it, and the rows that it
 * calls for. A sheet for an owner leaves out what is shop only, and in place of
 * what is deferred says who does it. */
struct deference deference_of(const struct findings *f,
                              const struct node *step);
/* An owner is told to do nothing that is deferred or for the shop only. */
void deference_check(struct compile *c, const struct guide *g,
                     const struct catalogue *k, const struct findings *f);
/* Whether it stands under the heading "For the owner". */
bool deference_is_for_owner(const struct node *n);
/* A paragraph that is part of no step: no panel can stand before it. */
bool deference_is_plain(const struct node *n);
/* The nearest such mark on a node or above it; NULL. */
const struct mark *deference_mark(const struct node *n, enum mark_kind kind);
bool deference_is_released(const struct guide *g);
/* The message of a rule that only questions: a released guide has no open
 * question. */
enum diag_id deference_flag(const struct guide *g);

#endif

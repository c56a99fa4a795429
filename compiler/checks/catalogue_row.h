/* catalogue_row.h - one block of the hazard catalogue as a record. */
#ifndef CATALOGUE_ROW_H
#define CATALOGUE_ROW_H

#include "checks/catalogue.h"

struct block;

/* What `b` does not say is as in `base`, which may be NULL; its lists add to
 * those of `base`. */
struct hazard catalogue_row_hazard(struct compile *c, const struct block *b,
                                   const struct hazard *base);
struct order catalogue_row_order(struct compile *c, const struct block *b,
                                 const struct order *base);
struct style_rule catalogue_row_style(struct compile *c, const struct block *b);
/* A setting as one line of text; NULL when it is not written. */
const char *catalogue_row_setting(struct arena *a, const struct block *b,
                                  const char *name);
bool catalogue_row_dropped(struct arena *a, const struct block *b);

#endif

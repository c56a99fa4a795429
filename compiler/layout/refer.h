/* refer.h - "step 14 (page 3)": what {see NAME} prints and where it leads. */
#ifndef REFER_H
#define REFER_H

#include "layout/leaf.h"

/* Room for all targets of the guide, nothing placed yet. */
void refer_open(struct leaf *l);
/* When the pages are broken: writes all page numbers. False when there is not
 * room for each: layout is to be done again, with more. */
bool refer_settle(struct leaf *l);

/* NULL for a node of the template. */
struct anchor *refer_node(struct leaf *l, const struct node *n);
struct anchor *refer_row(struct leaf *l, const struct block *b,
                         const struct entry *row);
/* The first row of a `limits` block with this id for any of these readers, and
 * its block; NULL: none. */
const struct entry *refer_reading(const struct leaf *l, struct text id,
                                  variant_set readers,
                                  const struct block **block);

/* Whether this is read on the sheet of a job that its owner keeps: it has no
 * table of limits, and no ids of readings. */
bool refer_is_owners(const struct leaf *l, const struct node *n);

/* Adds the words to the text, with a link; of a reading on an owner's sheet
 * what it measures. */
void refer_see(struct leaf *l, struct rich *r, struct tone tone,
               const struct mark *see);
/* Where the address of a link, "#NAME", leads; NULL: out of the guide. */
const struct anchor *refer_link(const struct leaf *l, struct text url,
                                const struct scope *from);
/* "step 14 (page 3)" for a step; with a link. */
void refer_step(struct leaf *l, struct rich *r, struct tone tone,
                const struct node *step);

#endif

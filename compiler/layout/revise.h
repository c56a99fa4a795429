/* revise.h - what changed since an issued revision: bars beside it in the outer
 * margin, and a list on page 1.
 *
 * A passage is what changes as one: a paragraph, the command of a step with its
 * warnings, a row of a table, one of the lists of preliminaries, a drawing or a
 * picture with all that is written in it. It changed
 * when no passage of the issued revision reads the same; so a new number that
 * was computed is a change, a new place or step number is none. Title block,
 * safety summary, headings, boxes and the annex are no passages: the rest leads
 * to them.
 */
#ifndef REVISE_H
#define REVISE_H

#include "layout/layout.h"
#include "layout/leaf.h"

/* From here on what is added to the flow is one passage, or none. */
void revise_begin(struct leaf *l, const struct node *n);
void revise_end(struct leaf *l);
/* Adds a drawing, a passage by itself where none has begun. */
void revise_add_slab(struct leaf *l, const struct node *n, struct slab *s);
/* The passages of the flow as they read, page numbers left out. */
struct passages revise_passages(struct leaf *l);
/* The page of each, once the flow is broken: `starts` are the first slabs. */
void revise_place(const struct leaf *l, struct passages *passages,
                  const size_t *starts, size_t pages);
/* Marks those that changed; the pass after this one prints bars and list. */
void revise_compare(struct leaf *l, const struct passages *now,
                    const struct passages *issued);
/* Bars, once the flow is whole. */
void revise_bars(struct leaf *l);
/* "step 14 (page 4), step 15 (page 4); left out: step 9", or nothing. */
void revise_add_list(struct leaf *l, struct rich *r, struct type type);

#endif

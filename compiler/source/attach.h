/* attach.h - marks at the start of a heading, paragraph or step are its own. */
#ifndef ATTACH_H
#define ATTACH_H

#include "source/tree.h"

struct compile;

/* Moves the marks that the text of n begins with to n->marks, and reports those
 * that stand where they may not. */
void attach_marks(struct compile *c, struct node *n);
/* Once the children of a step are there: the marks of its first paragraph are
 * the step's. */
void attach_step(struct compile *c, struct node *step);

#endif

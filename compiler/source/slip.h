/* slip.h - lines of running text that Markdown takes for something else than
 * was meant. */
#ifndef SLIP_H
#define SLIP_H

#include "source/tree.h"

struct compile;

/* A paragraph: a step whose number lacks its point joins the text above, and a
 * table of other Markdown prints as one line. */
void slip_check(struct compile *c, const struct node *paragraph,
                const struct node *before);
/* A line of nothing but dashes, bars and colons, as other Markdown writes it
 * below the names of the columns. */
bool slip_is_rule(struct text line);

#endif

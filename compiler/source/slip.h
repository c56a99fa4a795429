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
/* Text that prints as it stands since it is indented, four blanks or a tab, and
 * was meant as steps, a block, or text with marks. */
void slip_check_verbatim(struct compile *c, const struct node *n);
/* Nodes of one parent: what stands below a step is indented as far as the words
 * behind its number, four blanks from step 10 on; with less it would be a step
 * of its own, or stand outside. */
void slip_check_indent(struct compile *c, const struct node *parent);
/* A line of nothing but dashes, bars and colons, as other Markdown writes it
 * below the names of the columns. */
bool slip_is_rule(struct text line);

#endif

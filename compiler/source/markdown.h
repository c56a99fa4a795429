/* markdown.h - a source file to our own nodes. */
#ifndef MARKDOWN_H
#define MARKDOWN_H

#include "source/tree.h"

struct compile;

enum { MARKDOWN_DEPTH_MAX = 200 };

/* Reads the Markdown of scope->src. The children of the node that is returned
 * are flat: headings of each level are NODE_HEADING, no section holds any.
 * `place` is the flag of kind.h for the file. NULL after a message when the
 * text is not fit to be read at all. */
struct node *markdown_read(struct compile *c, const struct scope *scope,
                           unsigned place, bool *lost);

#endif

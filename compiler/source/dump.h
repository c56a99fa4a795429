/* dump.h - a guide tree as text, for people and golden files. */
#ifndef DUMP_H
#define DUMP_H

#include <stdio.h>

struct guide;

/* One line for each node, mark, block and entry, indented by depth, with the
 * line and column of its place. */
void tree_dump(const struct guide *g, FILE *out);

#endif

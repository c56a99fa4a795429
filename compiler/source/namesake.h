/* namesake.h - what tells two blocks of one name apart. */
#ifndef NAMESAKE_H
#define NAMESAKE_H

#include "source/tree.h"

struct arena;

/* The name of a block as a table prints it. A shared file that is included
 * twice has each of its blocks twice: behind the name stands a text that was
 * passed in and is not that of the others, "nut, front"; where there is none
 * the step that the block stands before, "nut, step 5". */
const char *namesake_name(struct arena *a, const struct guide *g,
                          const struct block *b);

#endif

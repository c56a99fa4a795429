/* block.h - the block grammar: lines of a fenced block -> settings,
 * definitions, requirements, rows. */
#ifndef BLOCK_H
#define BLOCK_H

#include "base/text.h"
#include "source/tree.h"

#include <stddef.h>

struct compile;

/* A fenced block as it stands in a source: slices of the source. */
struct block_lines {
    struct text info;  /* behind the fence: KIND or KIND NAME */
    struct text *line; /* without fence indentation and line end */
    size_t count;
};

/* `place` is the flag of kind.h for the file: KIND_IN_GUIDE, ... NULL after a
 * message about the block as a whole; a block with bad lines is returned. */
struct block *block_parse(struct compile *c, const struct scope *scope,
                          unsigned place, const struct block_lines *lines);

#endif

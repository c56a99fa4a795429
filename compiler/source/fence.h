/* fence.h - a fenced block back in its source, line by line. */
#ifndef FENCE_H
#define FENCE_H

#include "base/place.h"
#include "base/text.h"
#include "source/block.h"

struct compile;

enum fence {
    FENCE_BAD,      /* a message was given */
    FENCE_VERBATIM, /* indented code, or a fence without a kind */
    FENCE_BLOCK,    /* *out is filled in */
};

/* `line` and `column`, from 1, are where Markdown saw the code begin, `literal`
 * is the text that it found within. */
enum fence fence_read(struct compile *c, const struct source *src, size_t line,
                      size_t column, struct text literal,
                      struct block_lines *out);

#endif

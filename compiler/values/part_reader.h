/* part_reader.h - inside circuit_part: the words of an element of a circuit,
 * for one variant. */
#ifndef PART_READER_H
#define PART_READER_H

#include "values/circuit_part.h"

struct part_reader {
    struct values *v;
    const struct block *b;
    size_t variant;
    struct circuit_piece *part;
};

/* A message at the element's line; false. */
bool part_reader_fail(const struct part_reader *r, const char *why);
bool part_reader_is(const struct quantity *q, const char *unit);
/* A figure at the start of a word; *rest is what stands behind it. NULL after a
 * message. */
struct quantity *part_reader_figure(const struct part_reader *r,
                                    struct text word, struct text *rest);
/* " (did you mean 'feed'?)": a block of that kind whose name is near, or "". */
const char *part_reader_near(const struct part_reader *r, struct text word,
                             const char *kind);
/* part_wire.c: a `wire`: its size or block, length, ambient. */
bool part_reader_wire(const struct part_reader *r);

#endif

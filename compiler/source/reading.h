/* reading.h - a guide in the making: what the parts of source/ add to. */
#ifndef READING_H
#define READING_H

#include "source/tree.h"

#include <stdbool.h>
#include <stddef.h>

struct compile;

struct reading {
    struct compile *c;
    struct guide *guide;
    size_t file_room, scope_room, block_room, mark_room, node_room;
    size_t uses, bytes; /* of shared files, so far */
};

struct reading *reading_new(struct compile *c);
/* Goes on with a guide that was finished, without a change to it: lists that
 * grow are copied first. */
struct reading *reading_again(struct compile *c, const struct guide *read);
/* Notes a file that was read, once by its path. */
void reading_file(struct reading *r, const struct source *src);
const struct source *reading_has_file(const struct reading *r,
                                      const char *path);
struct scope *reading_scope(struct reading *r, const struct scope *parent,
                            const struct source *src,
                            const struct block *include);
/* Notes a block that stands in a file of facts, with the marks in it. */
void reading_fact(struct reading *r, struct block *b);
/* Numbers all nodes below the root, and notes them, their blocks and marks, in
 * the order in which they stand. */
void reading_index(struct reading *r);

#endif

/* tag.h - what the pieces of a page are: heading, step, table cell. Layout
 * opens a tag, sets what belongs to it and closes it; each piece of text and
 * each figure that is drawn meanwhile carries it. What is drawn under no tag is
 * furniture: lines, boxes, the foot, a table's head where it comes again. */
#ifndef TAG_H
#define TAG_H

#include "layout/display.h"

struct arena;

struct tagger {
    struct arena *arena;
    struct tag *list; /* [0] is the document */
    size_t count, room;
    size_t now;  /* number of the open one; 0: none */
    size_t link; /* of the text set last, where that was a link's */
    const void *target;
};

/* Forgets all and opens the document; each pass begins so. */
void tag_begin(struct tagger *t, struct arena *a);
/* A tag inside the one that is open, and open from now on; returns the one to
 * close to. Nothing happens where none is open. */
size_t tag_open(struct tagger *t, enum tag_kind kind, struct text words);
/* The same, unless the open one holds text itself, as a cell does. */
size_t tag_open_text(struct tagger *t);
/* The number or bullet of the item that is open. */
size_t tag_open_label(struct tagger *t);
/* The link to this target: the one that the text set last belonged to, where
 * that was the same, as on the line before; else a new one. */
size_t tag_open_link(struct tagger *t, const void *target);
/* Text that is no link's was set. */
void tag_leave_link(struct tagger *t);
void tag_close(struct tagger *t, size_t to);
/* Nothing is tagged until it is closed. */
size_t tag_pause(struct tagger *t);
/* The number that an op of this kind carries. */
size_t tag_of_op(const struct tagger *t, enum op_kind kind);

#endif

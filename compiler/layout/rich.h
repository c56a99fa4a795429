/* rich.h - text in mixed faces and sizes, before it is broken into lines. */
#ifndef RICH_H
#define RICH_H

#include "base/place.h"
#include "layout/late.h"
#include "layout/slab.h"

struct tone {
    enum face face;
    double size;
    struct colour colour;
};

struct chunk {
    struct tone tone;
    struct text text;        /* runs of white space count as one blank */
    bool whole;              /* a value: broken only behind ; , or before ( */
    bool held;               /* an item: broken behind ; or where that saves a
                                line */
    bool solid;              /* not broken at all */
    bool line_end;           /* a forced line end; no text */
    struct span at;          /* for messages about its characters */
    const struct anchor *to; /* internal link, or NULL */
    struct late *late;       /* the text is its noughts; or NULL */
    struct text uri;         /* or absent */
};

struct rich {
    struct chunk *chunk;
    size_t count, room;
};

/* Adds a chunk that may be given `whole`, `solid`, `to`, `uri` by the caller.
 */
struct chunk *rich_add(struct arena *a, struct rich *r, struct tone tone,
                       struct text text, struct span at);
void rich_line_end(struct arena *a, struct rich *r);
bool rich_empty(const struct rich *r); /* nothing but blanks: no words */

#endif

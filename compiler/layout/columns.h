/* columns.h - short paragraphs in two columns: small print that nobody reads at
 * a stretch, set dense without long lines. */
#ifndef COLUMNS_H
#define COLUMNS_H

#include "layout/flow.h"

struct columns { /* paragraphs, in order */
    struct rich *list;
    size_t count, room;
};

/* A new paragraph; the pointer holds until the next one is added. */
struct rich *columns_add(struct arena *a, struct columns *p);
/* The left column of a page is read first, then its right one; both are about
 * equally high, and a paragraph may go on from one to the other, no line of it
 * alone. A long list goes on in two columns on the next page. */
void columns_set(struct flow *f, const struct columns *p, double x,
                 double width, struct type type, struct span at);

#endif

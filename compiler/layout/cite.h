/* cite.h - sources by number: they are long and come back, so each is printed
 * once, at the end of the annex. */
#ifndef CITE_H
#define CITE_H

#include "layout/columns.h"
#include "layout/leaf.h"

struct cited {
    struct text *list;
    size_t count, room;
};

/* " [3]"; nothing where there is no source. */
const char *cite(struct leaf *l, struct cited *c, const char *source);
/* All of them, run on in one paragraph; `titled`: a title above says what they
 * are. */
void cite_list(struct leaf *l, const struct cited *c, struct columns *p,
               bool titled);

#endif

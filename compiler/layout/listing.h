/* listing.h - tables to pages, without a guide: the register on paper. */
#ifndef LISTING_H
#define LISTING_H

#include "layout/layout.h"

enum { LISTING_COLUMNS = 4 };

struct listing_row {
    const char *cell[LISTING_COLUMNS]; /* the first in bold, the second figures;
                                          NULL: empty */
};

struct listing_part {
    const char *title;
    const char *words;                 /* below it; or NULL */
    const char *head[LISTING_COLUMNS]; /* NULL from the last column on */
    struct listing_row *row;
    size_t count, room;
};

struct listing {
    const char *title, *words;
    struct listing_part *part;
    size_t count, room;
};

/* Paper, margins and letters are those of the template. NULL after a message.
 */
struct pages *listing_pages(struct compile *c, const struct listing *list,
                            const struct layout_options *options);

#endif

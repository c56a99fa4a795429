/* sheet.h - the template of a guide's pages: paper, margins, letters, the head
 * of the first page, the parts in their order and the words above them.
 *
 * By its name NAME it is the library's templates/NAME.md, else the one of that
 * name that is linked in. */
#ifndef SHEET_H
#define SHEET_H

#include "layout/layout.h"
#include "layout/part.h"
#include "layout/style.h"
#include "source/tree.h"

struct image;

struct sheet {
    const struct guide *own;    /* its file */
    const struct guide *source; /* of the parts: another's where it has none */
    const struct block *page;   /* its `page` block, or NULL */
    const struct sheet *like;   /* whose settings and parts it takes, or NULL */
    struct style style;         /* of the frame that pages are broken in */
    double width, height;       /* of the paper */
    double down;                /* of the frame on the paper */
    double logo_height;
    const struct block *insert[PART_COUNT]; /* NULL: it is left out */
};

/* NULL after a message. `si`: the guide says `units: SI`. */
const struct sheet *sheet_read(struct compile *c,
                               const struct layout_options *options, bool si);
/* A setting of its `page`, or of the one it is like; absent when not written.
 */
struct text sheet_setting(const struct sheet *s, const char *name);
const struct image *sheet_logo(const struct sheet *s); /* or NULL */
/* The heading that stands above a part in the template; NULL: none. */
const struct inlines *sheet_heading(const struct sheet *s, enum part_id part);
/* The part that an `insert` block stands for. */
enum part_id sheet_part(const struct block *insert);

#endif

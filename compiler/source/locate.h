/* locate.h - the place of running text in its source.
 *
 * The Markdown library says where a paragraph starts, but for the text within
 * one it answers columns that are wrong on indented lines. So the pieces are
 * looked for in order: a cursor steps over what Markdown took away. */
#ifndef LOCATE_H
#define LOCATE_H

#include "base/place.h"
#include "base/text.h"

#include <stdbool.h>
#include <stddef.h>

struct locator {
    struct text text; /* of the source that Markdown read */
    size_t at;
};

struct located {
    size_t start, end;
    bool same; /* the source has these very bytes: no escapes, no entities */
};

/* Finds a piece of text; where it cannot be found the cursor's own place is the
 * answer. The cursor is behind it then. */
struct located locate_text(struct locator *l, struct text piece);
/* The next code span, with its backticks. */
struct located locate_code(struct locator *l);
/* Steps over the rest of the line. */
void locate_line_end(struct locator *l);
/* Steps over `](...)`, `][...]` or `>` behind the text of a link. */
void locate_link_end(struct locator *l);

#endif

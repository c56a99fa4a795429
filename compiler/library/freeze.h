/* freeze.h - a guide against the revisions of it that were issued. */
#ifndef FREEZE_H
#define FREEZE_H

#include "layout/layout.h"
#include "library/issued.h"

/* What of the guide is compared and kept; without code, values and sources.
 * Revision 0 where the guide says none that is a number. */
struct issued freeze_head(struct arena *a, const struct guide *g,
                          const struct passages *printed);
/* status: released */
bool freeze_is_released(struct arena *a, const struct guide *g);
/* All of it, to be written: the pages were made with `frozen`. */
struct issued freeze_whole(struct arena *a, const char *root,
                           const struct guide *g, struct values *v,
                           const struct pages *p,
                           const struct passages *printed);

/* What was issued last before the revision that the guide says; NULL: nothing
 * was, or after a message. */
const struct issued *freeze_last(struct compile *c, const struct guide *g);

/* layout_pages_on() with bars against the revision issued before, if any. A
 * released guide that prints as its own issued revision does is laid out as
 * issued; one that does not is told so. */
struct pages *freeze_layout(struct compile *c, const struct guide *g,
                            const struct values *v, const struct findings *f,
                            const struct layout_options *options);

#endif

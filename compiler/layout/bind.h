/* bind.h - what all sheets begin and end with: template and shaper; foot, code,
 * paper. */
#ifndef BIND_H
#define BIND_H

#include "layout/foot.h"
#include "layout/layout.h"
#include "layout/leaf.h"

/* The composer and the sheet of a leaf; false after a message about the
 * template. `si`: see sheet_read(). bind_close() gives back the shaper. */
bool bind_open(struct leaf *l, struct compile *c, struct tagger *tags,
               const struct layout_options *options, bool si);
void bind_close(struct leaf *l);
/* The lines of the foot; the style's bottom is above them from then on. */
struct foot_lines *bind_foot(struct leaf *l, const struct foot *foot);
/* The pages with their foot and code. The style's bottom is the frame's again.
 * What is drawn later does not count in the code. */
struct pages *bind_pages(struct leaf *l, const struct foot_lines *foot,
                         const size_t *starts, size_t count);
/* From the frame to the paper; last. */
void bind_to_paper(struct pages *p, struct arena *a, const struct sheet *sheet);

#endif

/* bind.h - slabs that are broken into pages, to finished sheets: foot, code,
 * paper. */
#ifndef BIND_H
#define BIND_H

#include "layout/foot.h"
#include "layout/leaf.h"

/* `bottom`: of the style with its foot, which gets it back. What is drawn later
 * does not count in the code. */
struct pages *bind_pages(struct leaf *l, const struct foot_lines *foot,
                         double bottom, const size_t *starts, size_t count);
/* From the frame to the paper; last. */
void bind_to_paper(struct pages *p, struct arena *a, const struct sheet *sheet);

#endif

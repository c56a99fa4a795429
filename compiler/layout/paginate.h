/* paginate.h - a flow of slabs to pages.
 *
 * The breaks are chosen over the whole document: fewest pages first, then least
 * white space and the best places. A slab that begins a page loses the space
 * above it and gets its `again` (the head of its table) set over it. A page
 * that is a little too full is set closer where that saves a page or a bad
 * break: a row of a list that would stand overleaf alone. */
#ifndef PAGINATE_H
#define PAGINATE_H

#include "layout/flow.h"

/* The pages of a flow that is moved about before slab `kept`: what those that
 * begin there or later cost is worked out once. */
struct plan;
struct plan *paginate_plan(const struct flow *f, size_t kept);
/* The slabs first..last are others than before, or are held in another way. */
void paginate_moved(struct plan *p, size_t first, size_t last);
/* What the best pages of the flow, as it stands now, cost. */
double paginate_cost(const struct flow *f, struct plan *p);

/* Index of the first slab of each page; returns the number of pages. Tells the
 * anchors where they came to stand. */
size_t paginate_break(const struct flow *f, const size_t **starts);
/* Draws all slabs into the frame. Reports a slab that is taller than a page,
 * slabs bound together that are, numbers that are not finite, and whatever
 * reaches past the edges of the text. */
void paginate_place(const struct flow *f, const size_t *starts, size_t count,
                    struct pages *out);

#endif

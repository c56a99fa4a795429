/* corner.h - everything that has a width below the figures of a circuit. */
#ifndef CORNER_H
#define CORNER_H

#include "values/circuit_solve.h"
#include "values/range.h"

#include <stdlib.h>

static inline int corner_by_serial(const void *a, const void *b) {
    size_t x = ((const struct corner *)a)->root->serial;
    size_t y = ((const struct corner *)b)->root->serial;
    return (x > y) - (x < y);
}

/* Each root with a width once, by serial as circuit_solve_corner wants them,
 * its figure 0. How many; `most` when there is no place for all. */
static inline size_t corner_roots(struct arena *a, struct circuit_work *w,
                                  struct corner *corner, size_t most) {
    size_t count = 0;
    for (size_t i = 0; i < w->part_count; i++) {
        const struct quantity *q[PART_FIGURES], *const *root;
        size_t n = w->part[i].law == LAWS ? 0 : circuit_solve_figures(w, i, q);
        for (size_t k = 0; k < n; k++) {
            size_t roots = range_roots(a, q[k], &root);
            for (size_t r = 0; r < roots; r++) {
                bool known =
                    count == most || root[r]->range.low == root[r]->range.high;
                for (size_t c = 0; c < count; c++)
                    known = known || corner[c].root == root[r];
                if (!known)
                    corner[count++] = (struct corner){root[r], 0};
            }
        }
    }
    qsort(corner, count, sizeof *corner, corner_by_serial);
    return count;
}

#endif

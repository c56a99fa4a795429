/* pair.h - slabs in two columns, as many on each page as it has room for: the
 * left column is read first, and both are about equally high. */
#ifndef PAIR_H
#define PAIR_H

#include "layout/flow.h"

struct pair {
    size_t from, to; /* slabs of the flow */
    double shift;    /* of the right column */
    double *end;     /* of each slab, were they all in one column */
};

/* The slabs added to the flow since then stand in two columns. */
void pair_add(struct flow *f, size_t from, double shift);
/* The one that slab `i` stands in, or NULL. */
const struct pair *pair_at(const struct flow *f, size_t i);
/* Slabs from..to-1 of it are on one page: which of them begins the right
 * column, and how high the higher column is. */
struct pair_parted {
    size_t right;
    double height;
} pair_part(const struct flow *f, const struct pair *p, size_t from, size_t to);

/* The slabs of a page put under each other, from its top: with one share of
 * their spaces, or with two side by side. */
struct pile {
    const struct flow *f;
    int shares;              /* how many */
    double share[2];         /* of each space; 1: all of it, on the grid */
    double used[2];          /* of its height so far, with each share */
    double top[2];           /* of the last slab, or of the pair it stands in */
    const struct pair *pair; /* that the last one stood in */
    size_t until;            /* the first slab that no longer does */
    size_t first;            /* slab of it on this page */
    size_t middle;           /* where the columns cross */
};

/* A page that begins with slab `i`, with its `again` above it. */
struct pile pile_begin(const struct flow *f, size_t i, double share);
/* A second share beside the first, before any slab is added. */
void pile_beside(struct pile *p, double share);
/* That page behind slab `i`, whose slabs take so much: the next one stands in
 * no columns with it. */
struct pile pile_resume(const struct pile *begun, size_t i,
                        const double used[2]);
/* The next slab; returns its top where it is not in columns. */
double pile_add(struct pile *p, size_t i);

#endif

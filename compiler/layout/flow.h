/* flow.h - slabs under each other, with the space between them and the page
 * breaks that may come between. */
#ifndef FLOW_H
#define FLOW_H

#include "layout/paragraph.h"
#include "layout/slab.h"

struct drift;
struct pair;

struct flow {
    const struct composer *c;
    struct slab **slab;
    size_t count, room;
    double space;   /* wanted above the next slab */
    enum bond bond; /* wanted to the next slab */
    bool fresh;     /* the next slab begins a page */
    bool passages;  /* what is added is counted in passages: see revise.h */
    size_t passage, passage_count;
    struct pair *pair; /* slabs that stand in two columns: see pair.h */
    size_t pair_count, pair_room;
    struct drift *drift; /* drawings that may move: see drift.h */
    size_t drift_count, drift_room, drift_first;
    bool drift_open, drift_heads;
    struct plan *plan; /* of its pages, once drawings have moved; or NULL */
};

/* Space above the next slab: the largest that was asked for. */
void flow_space(struct flow *f, double space);
/* Bond to the next slab: the strongest that was asked for. */
void flow_bond(struct flow *f, enum bond bond);
void flow_add(struct flow *f, struct slab *s);
struct slab *flow_slab(struct flow *f, double height, struct span at);

/* Lines of a paragraph, at least two of them on each side of a page break.
 * Returns the first slab, or NULL when there is no text. */
struct slab *flow_lines(struct flow *f, const struct lines *l, double x,
                        struct span at);
struct slab *flow_paragraph(struct flow *f, const struct rich *r, double x,
                            double width, struct type type, struct span at);

/* "NAME, continued" at the top of a slab; without a name "continued". Returns
 * how far down that reaches. */
double flow_continued(const struct flow *f, struct slab *s, double x,
                      struct text name);

/* Everything added since flow->count was `from` stands on one page where that
 * is possible; where it is taller than a page the bonds inside stay as they
 * are. */
void flow_together(struct flow *f, size_t from, enum bond bond);
/* Where a slab stands below what takes `used` of the page: on the grid, with
 * about the space it wants. */
double flow_below(const struct style *style, double used, const struct slab *s);
/* Of all slabs since then, in one column. */
double flow_height(const struct flow *f, size_t from);

#endif

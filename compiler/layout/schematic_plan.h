/* schematic_plan.h - where the parts of a circuit stand in its drawing: from
 * the shape of the circuit alone, without coordinates in the source.
 *
 * Points are bars that lie, rungs are what hangs between them: a chain of
 * branches, or a supply. Bars lie in the order in which the current meets them
 * (layout/schematic_order.h), from the feed at the top to the returns at the
 * bottom; rungs stand beside each other in an order in which as few as possible
 * cross a bar that they are not joined to. A rung has a column of its own down
 * its whole length, with room for its symbols and their words, so that nothing
 * is drawn over anything: a chain that turns, written against the current in
 * one part, is parted there into two. */
#ifndef SCHEMATIC_PLAN_H
#define SCHEMATIC_PLAN_H

#include <stdbool.h>
#include <stddef.h>

struct arena;

/* What hangs between two points of a rung: elements in series. */
struct plan_span {
    size_t from, to; /* points, unlike each other */
    size_t first;    /* the caller's number of its first element */
    double *height;  /* of each element, from `from` on */
    size_t count;
    double *y; /* filled in: top of each element, downward */
    bool up;   /* filled in: `to` lies above `from` */
};

struct plan_rung {
    struct plan_span *span; /* each begins where the one before it ends */
    size_t count;
    size_t column; /* filled in */
    size_t *point; /* filled in: count + 1, the highest first */
};

/* What a point is of a supply. */
enum plan_post { PLAN_INNER, PLAN_PLUS, PLAN_MINUS };

struct plan_point {
    enum plan_post post;
    double y;           /* filled in: of the bar, from the top */
    size_t first, last; /* filled in: columns of its bar */
    size_t ends;        /* filled in: how many spans end or begin here */
};

/* Left by a plan for the next one of the same circuit, with elements of other
 * heights: schematic_columns.c. */
struct plan_known {
    const unsigned char *way;
    const size_t *at;
};

struct plan {
    struct plan_rung *rung; /* room for as many as there are spans */
    size_t rung_count;      /* more, once chains are parted */
    struct plan_point *point;
    size_t point_count;
    double band;      /* free of symbols on both sides of a bar */
    size_t columns;   /* filled in */
    double height;    /* filled in */
    size_t crossings; /* filled in: a rung over a bar that is not its own */
    struct plan_known known; /* zero at first */
};

/* Every point is the end of some span. Again where only the heights of elements
 * and the band are others: the drawing is that of a plan made anew. */
void plan_make(struct arena *a, struct plan *p);

#endif

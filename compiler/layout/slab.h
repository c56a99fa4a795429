/* slab.h - a piece of a page that is never split: one line of a paragraph, one
 * row of a table, one panel. Pages are slabs set under each other.
 *
 * Whatever is drawn goes through slab_op(), with x from the left edge of the
 * text and y from the top of the slab. */
#ifndef SLAB_H
#define SLAB_H

#include "base/place.h"
#include "layout/display.h"
#include "layout/style.h"
#include "layout/tag.h"

struct arena;
struct diags;
struct shaper;

/* What all of layout needs. */
struct composer {
    struct arena *arena;
    struct diags *diags;
    struct shaper *shaper;
    const struct style *style;
    struct tagger *tags; /* what is being set */
};

/* A place that links and "page 3" point to. */
struct anchor {
    int page; /* from 0; -1 until it is placed */
    double y; /* in the frame */
};

struct link {
    double x, y, width, height;
    const struct anchor *to; /* or NULL */
    struct text uri;
    size_t tag; /* of its text; 0: none */
};

/* How much a page break before a slab is worth avoiding. */
enum bond {
    BOND_NONE,  /* the best place: a section begins */
    BOND_LIGHT, /* between steps or paragraphs */
    BOND_WEAK,  /* inside a paragraph, between rows */
    BOND_FIRM,  /* inside a step: only if the page would stay half empty */
    BOND_CLOSE, /* beside the first and the last row of a table */
    BOND_FAST,  /* never */
};

struct slab {
    double space;             /* above it; left out at the top of a page */
    double height;            /* without the space */
    enum bond bond;           /* to the slab before */
    bool fresh;               /* begins a page whatever stands before it */
    const struct slab *again; /* set above it where it begins a page: the head
                                 of the table, "continued" */
    struct op *ops;
    size_t op_count, op_room;
    struct link *links;
    size_t link_count, link_room;
    struct anchor *anchor; /* told where the slab came to stand */
    struct text outline;   /* entry of the document outline, or absent */
    int outline_level;
    size_t passage;   /* of revise.h that it belongs to; 0: none */
    bool bar;         /* it changed: a bar in the outer margin */
    double bar_above; /* how far up that bar begins */
    struct span at;   /* for messages about it */
    bool told;        /* that it is too wide */
};

struct slab *slab_new(const struct composer *c, double height, struct span at);
struct op *slab_op(const struct composer *c, struct slab *s, enum op_kind kind);
void slab_link(const struct composer *c, struct slab *s, struct link link);
/* A filled rectangle; an outlined one whose line lies inside it; a line. */
void slab_fill(const struct composer *c, struct slab *s, double x, double y,
               double width, double height, struct colour colour);
void slab_box(const struct composer *c, struct slab *s, double x, double y,
              double width, double height, double line_width);
void slab_rule(const struct composer *c, struct slab *s, double x, double y,
               double x2, double y2, double line_width);
/* A disc, or with a line width a ring, around x, y. */
void slab_disc(const struct composer *c, struct slab *s, double x, double y,
               double radius, double line_width, struct colour colour);
/* A word or two as they are, baseline at y; returns the width. What the face
 * lacks comes from that of symbols, as in a paragraph; what that lacks too is
 * reported. Not for texts that may have to be broken. */
double slab_text(const struct composer *c, struct slab *s, double x, double y,
                 enum face face, double size, struct colour colour,
                 struct text text);
/* Moves the ops from this index on before all others: they are read first. */
void slab_to_front(const struct composer *c, struct slab *s, size_t from);
/* All ops and links of another slab, moved. */
void slab_copy(const struct composer *c, struct slab *s,
               const struct slab *from, double dx, double dy);
/* An op moved; also its path. */
struct op slab_moved(struct arena *a, const struct op *op, double dx,
                     double dy);

#endif

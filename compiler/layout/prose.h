/* prose.h - running text of a guide: inlines to rich text, nodes to slabs. */
#ifndef PROSE_H
#define PROSE_H

#include "layout/leaf.h"

/* Boxes that the marks of a text call for; they stand below it. */
struct boxes {
    const struct mark **reading;
    size_t count, room;
    bool initial;
};

/* Where and how text is set. */
struct spot {
    double x, width;
    struct type type;
    enum face value; /* of figures */
    variant_set variants;
    struct boxes *boxes; /* collects, or NULL: the marks print words only */
};

/* The body column, in prose. */
struct spot prose_body(const struct leaf *l, variant_set variants);

void prose_add(struct leaf *l, struct rich *r, const struct inlines *t,
               const struct spot *spot);
/* The alternatives of a setting or cell that hold for the spot's variants;
 * where they differ each with its variants in front. */
void prose_add_choices(struct leaf *l, struct rich *r,
                       const struct choice *choices, size_t count,
                       const struct spot *spot);
void prose_add_cell(struct leaf *l, struct rich *r, const struct cell *cell,
                    const struct spot *spot);

/* The spot's variants that the node is for; 0: for another vehicle. */
variant_set prose_variants(struct leaf *l, const struct node *n,
                           variant_set variants);
/* "mark 3 only: " and "Have this done by a gas fitter. " */
void prose_add_lead(struct leaf *l, struct rich *r, const struct node *n,
                    const struct spot *spot, variant_set inner);
void prose_add_deferred(struct leaf *l, struct rich *r, struct tone tone,
                        struct text trade);

/* The node and those behind it. */
void prose_nodes(struct leaf *l, const struct node *first,
                 const struct spot *spot);

#endif

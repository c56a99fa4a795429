/* circuit_look.h - inside circuit_given: one circuit, in one variant, asked
 * what it says of a block. Only what is written counts. */
#ifndef CIRCUIT_LOOK_H
#define CIRCUIT_LOOK_H

#include "source/circuit_tree.h"
#include "values/electrical.h"
#include "values/model.h"

struct look {
    struct values *v;
    const struct block *circuit;
    const struct circuit *c;
    size_t variant;
    const struct block *wire; /* whose length is looked for */
    bool *back;               /* by branch: it is written from a minus on */
    size_t routes;
    bool *on; /* by point: on the route */
    struct quantity *longest;
    double
        *share; /* by element, of the largest current; NULL: as much in all */
};

/* False: the block is no circuit, a bad one, or one as found. */
bool circuit_look_at(struct values *v, const struct block *circuit,
                     size_t variant, struct look *k);
/* By branch: whether it is written from a minus on, against the current. */
void circuit_look_back(const struct circuit *c, bool *back);
/* Whether an element is there in the variant, and a load, not one that is
 * `dropping` for another; a wire of k->wire. */
bool circuit_look_here(const struct look *k, size_t element);
bool circuit_look_load(const struct look *k, size_t element);
bool circuit_look_uses(const struct look *k, size_t element);
/* The block of that kind that the element's first word names, or NULL. */
const struct block *circuit_look_block(const struct look *k, size_t element,
                                       const char *kind);
/* `7.6 A at 13.2 V`, `2.6 m`: the first figure of a word; NULL: none of that
 * unit. */
struct quantity *circuit_look_figure(const struct look *k, struct text word,
                                     const char *unit);
/* Of two figures, in the unit of the larger; either may be NULL. */
struct quantity *circuit_look_sum(const struct look *k, struct quantity *a,
                                  struct quantity *b);
/* The high end; below all where it is NULL. */
double circuit_look_most_of(const struct quantity *q);
bool circuit_look_post(const struct look *k, size_t point, bool minus);
/* The points of a branch, and its i-th element, on the way from plus to minus,
 * whichever way it is written. */
size_t circuit_look_from(const struct look *k, size_t branch);
size_t circuit_look_to(const struct look *k, size_t branch);
size_t circuit_look_element(const struct look *k, size_t branch, size_t i);

/* circuit_loads.c: the loads that a wire feeds, or brings back where it feeds
 * none, and what they take together, on the post of a source that limits itself
 * no more than it gives. How many; SIZE_MAX: one does not say. */
size_t circuit_loads_of(const struct look *k, size_t wire,
                        const struct feed *feed, bool *load,
                        struct load_current *all);
/* Of the wire of k->wire that carries most. */
size_t circuit_loads_most(const struct look *k, bool *load,
                          struct load_current *current);
/* circuit_route.c: the longest sum of wires of k->wire from a plus post to a
 * minus post; NULL: none. */
struct quantity *circuit_route_longest(struct look *k);
/* The length over which `most`, the largest current of the block, A, would lose
 * as much as the wires on the route that loses most; the same as the longest
 * where the share of a wire is not known. */
struct quantity *circuit_route_loaded(struct look *k, double most);

/* What this circuit says of a setting of the block; ABSENT: nothing. */
struct value circuit_look_gives(struct look *k, const struct block *b,
                                const char *setting);
/* Of all circuits of the guide what the one says that asks most: *by. */
struct value circuit_look_most(struct values *v, const struct block *b,
                               const char *setting, size_t variant,
                               struct look *by);

#endif

/* circuit_look.h - inside circuit_given: one circuit, in one variant, asked
 * what it says of a block. */
#ifndef CIRCUIT_LOOK_H
#define CIRCUIT_LOOK_H

#include "source/circuit_tree.h"
#include "values/model.h"

struct look {
    struct values *v;
    const struct block *circuit;
    const struct circuit *c;
    size_t variant;
    const struct block *wire; /* whose length is looked for */
    size_t routes;
    bool *on; /* by point: on the route */
    struct quantity *longest;
};

/* False: the block is no circuit, a bad one, or one as found. */
bool circuit_look_at(struct values *v, const struct block *circuit,
                     size_t variant, struct look *k);
/* What this circuit says of a setting of the block; ABSENT: nothing. */
struct value circuit_look_gives(struct look *k, const struct block *b,
                                const char *setting);
/* Of all circuits of the guide what the one says that asks most: *by. */
struct value circuit_look_most(struct values *v, const struct block *b,
                               const char *setting, size_t variant,
                               struct look *by);

#endif

/* trial.c - the same guide with one wire in another size: what would pass? */
#include "values/trial.h"

#include "base/arena.h"
#include "values/electrical.h"
#include "values/range.h"

const struct wire_size *trial_rests_on(const struct values *v,
                                       const struct requirement *r,
                                       const struct block *wire) {
    if (wire->kind->id != KIND_WIRE || wire->name.len == 0)
        return NULL;
    const struct wire_outcome *o = v->of_block[wire->index].outcome[r->variant];
    if (o == NULL)
        return NULL;
    struct arena *own = arena_new();
    const struct quantity *sides[] = {r->left, r->right};
    bool found = false;
    for (size_t side = 0; side < 2 && !found; side++) {
        const struct quantity *const *root;
        size_t count = range_roots(own, sides[side], &root);
        for (size_t i = 0; i < count; i++)
            found = found || root[i] == o->per_metre;
    }
    arena_free(own);
    return found ? o->size : NULL;
}

bool requirement_met(const struct values *v, const struct requirement *r) {
    if (r->left == NULL)
        return false;
    struct quantity_maker m = v->maker;
    bool turned =
        r->relation == RELATION_AT_LEAST || r->relation == RELATION_ABOVE;
    const struct quantity *small = turned ? r->right : r->left;
    const struct quantity *large = turned ? r->left : r->right;
    const struct quantity *room =
        quantity_binary(&m, QUANTITY_SUBTRACT, large, small);
    if (r->relation == RELATION_BELOW || r->relation == RELATION_ABOVE)
        return range_ends(room).low > 0;
    return requirement_holds(room, small, large);
}

struct quantity_maker requirement_maker(const struct values *v) {
    return v->maker;
}

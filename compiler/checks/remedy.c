/* remedy.c - the nearest thing that would pass a failed check. */
#include "checks/remedy.h"

#include "base/arena.h"
#include "base/diag.h"
#include "source/kind.h"
#include "source/tree.h"
#include "values/trial.h"

#include <string.h>

/* The same requirement after another evaluation. */
static const struct requirement *same_in(const struct values *v,
                                         const struct requirement *r) {
    for (size_t i = 0; i < requirement_count(v); i++) {
        const struct requirement *one = requirement_at(v, i);
        if (one->block == r->block && one->variant == r->variant &&
            one->at.start == r->at.start && strcmp(one->what, r->what) == 0)
            return one;
    }
    return NULL;
}

static bool passes_with(const struct guide *g, const struct requirement *r,
                        const struct block *wire,
                        const struct wire_size *size) {
    struct arena *own = arena_new();
    struct compile trial = {.arena = own, .diags = diag_new(own)};
    const struct values *v =
        values_evaluate_with(&trial, g, &(struct trial_size){wire, size});
    const struct requirement *again = same_in(v, r);
    bool passes = again != NULL && requirement_met(v, again);
    arena_free(own);
    return passes;
}

const char *remedy_find(struct compile *c, const struct guide *g,
                        const struct values *v, const struct requirement *r) {
    if (r->left == NULL || r->sizes != NULL)
        return NULL;
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *wire = g->blocks[i];
        const struct wire_size *size = trial_rests_on(v, r, wire);
        if (size == NULL)
            continue;
        while ((size = size_up(size)) != NULL)
            if (passes_with(g, r, wire, size))
                return arena_printf(c->arena, "%.*s in %s passes",
                                    (int)wire->name.len, wire->name.start,
                                    size->label);
    }
    return NULL;
}

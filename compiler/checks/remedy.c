/* remedy.c - the nearest thing that would pass a failed check. */
#include "checks/remedy.h"

#include "base/arena.h"
#include "base/diag.h"
#include "source/tree.h"
#include "values/trial.h"

/* Each trial computes anew what a check rests on. */
enum { CHECKS_MAX = 40 };

struct remedies {
    struct compile *c;
    const struct guide *guide;
    const struct values *values;
    struct compile trial_compile; /* its own arena; nobody reads its messages */
    struct trial *trial;          /* NULL until the first check fails */
    struct span last; /* a check fails in one variant after another */
    size_t checks;
};

struct remedies *remedy_new(struct compile *c, const struct guide *g,
                            const struct values *v) {
    struct remedies *e = arena_alloc(c->arena, 1, sizeof *e);
    e->c = c;
    e->guide = g;
    e->values = v;
    struct arena *own = arena_new();
    e->trial_compile = (struct compile){.arena = own, .diags = diag_new(own)};
    return e;
}

static bool is_allowed(struct remedies *e, const struct requirement *r) {
    if (e->checks == 0 || e->last.src != r->at.src ||
        e->last.start != r->at.start)
        e->checks++;
    e->last = r->at;
    return e->checks <= CHECKS_MAX;
}

const char *remedy_find(struct remedies *e, const struct requirement *r) {
    if (r->left == NULL || r->sizes != NULL || !is_allowed(e, r))
        return NULL;
    struct arena *own = e->trial_compile.arena;
    const struct trial_wire *wire;
    size_t count = trial_wires(e->values, own, r, &wire);
    if (count > 0 && e->trial == NULL)
        e->trial = trial_new(&e->trial_compile, e->guide);
    for (size_t i = 0; i < count; i++) {
        struct text name = wire[i].block->name;
        for (const struct wire_size *size = size_up(wire[i].size); size != NULL;
             size = size_up(size))
            if (trial_passes(e->trial, r, wire[i].block, size))
                return arena_printf(e->c->arena, "%.*s in %s passes",
                                    (int)name.len, name.start, size->label);
    }
    return NULL;
}

void remedy_end(struct remedies *e) {
    arena_free(e->trial_compile.arena);
}

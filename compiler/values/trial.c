/* trial.c - the same guide with one wire in another size: what would pass? */
#include "values/trial.h"

#include "base/arena.h"
#include "values/electrical.h"
#include "values/range.h"

#include <string.h>

struct trial {
    struct values *values;
    struct trial_wire with;
};

struct trial *trial_new(struct compile *c, const struct guide *g) {
    struct trial *t = arena_alloc(c->arena, 1, sizeof *t);
    t->values = evaluate_open(c, g);
    t->values->trial = &t->with;
    return t;
}

/* What the last trial left in this variant. */
static void forget(struct values *v, size_t variant) {
    for (size_t i = 0; i < v->slot_count; i++)
        v->slot[i].state[variant] = SLOT_UNTOUCHED;
    for (size_t i = 0; i < v->guide->block_count; i++) {
        struct block_slots *b = &v->of_block[i];
        b->state[variant] = SLOT_UNTOUCHED;
        b->failed[variant] = false;
        b->outcome[variant] = NULL;
        b->working_count = 0;
    }
    v->requirement_count = 0;
}

static void evaluate(struct values *v, const struct requirement *r) {
    const struct block *b = r->block;
    if (b->kind->id != KIND_CHECK) {
        evaluate_block(v, b, r->variant);
        return;
    }
    for (size_t i = 0; i < b->entry_count; i++)
        if (b->entries[i].at.start <= r->at.start &&
            r->at.start < b->entries[i].at.end)
            evaluate_check(v, b, &b->entries[i], r->variant);
}

bool trial_passes(struct trial *t, const struct requirement *r,
                  const struct block *wire, const struct wire_size *size) {
    struct values *v = t->values;
    t->with = (struct trial_wire){wire, size};
    forget(v, r->variant);
    evaluate(v, r);
    for (size_t i = 0; i < v->requirement_count; i++) {
        const struct requirement *one = &v->requirement[i];
        if (one->at.start == r->at.start && strcmp(one->what, r->what) == 0)
            return requirement_met(&v->maker, one);
    }
    return false;
}

/* Roots come in the order of their making, which is that of their serials. */
static bool is_among(const struct quantity *q,
                     const struct quantity *const *root, size_t count) {
    size_t low = 0, high = count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (root[middle]->serial < q->serial)
            low = middle + 1;
        else
            high = middle;
    }
    return low < count && root[low] == q;
}

size_t trial_wires(const struct values *v, struct arena *a,
                   const struct requirement *r,
                   const struct trial_wire **list) {
    const struct quantity *const *left, *const *right;
    size_t left_count = range_roots(a, r->left, &left);
    size_t right_count = range_roots(a, r->right, &right);
    struct trial_wire *found =
        arena_alloc(a, v->guide->block_count + 1, sizeof *found);
    size_t count = 0;
    for (size_t i = 0; i < v->guide->block_count; i++) {
        const struct block *b = v->guide->blocks[i];
        const struct wire_outcome *o = v->of_block[i].outcome[r->variant];
        if (o != NULL && (is_among(o->per_metre, left, left_count) ||
                          is_among(o->per_metre, right, right_count)))
            found[count++] = (struct trial_wire){b, o->size};
    }
    *list = found;
    return count;
}

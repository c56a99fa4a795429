/* protection.c - every wire on a supply has a fuse: the ones that none names.
 */
#include "base/arena.h"
#include "values/circuit_given.h"
#include "values/electrical.h"

static void mark(const struct values *v, const struct block *fuse,
                 struct text names, variant_set in, variant_set *set) {
    const struct block *const *wire;
    size_t count = blocks_listed(v, fuse, names, "wire", &wire);
    for (size_t i = 0; i < count; i++)
        set[wire[i]->index] |= in;
}

/* By block index: the variants in which a fuse protects it. A list that could
 * not be read has its message, and may have meant any of them. */
static const variant_set *protected_wires(struct values *v) {
    const struct guide *g = v->guide;
    variant_set *set =
        arena_alloc(v->c->arena, g->block_count + 1, sizeof *set);
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        bool fuse = b->kind->id == KIND_FUSE && b->name.len > 0;
        for (size_t k = 0; fuse && k < v->variant_count; k++) {
            variant_set in = (variant_set)1 << k;
            const struct value *names = block_setting(v, b, "protects", k);
            if (names->type == VALUE_TEXT)
                mark(v, b, names->text, in, set);
            for (size_t n = 0; names->type == VALUE_BAD && n < g->block_count;
                 n++)
                set[n] |= in;
        }
    }
    return set;
}

static void require(struct values *v, const struct block *b, size_t variant) {
    block_require(
        v, (struct requirement){
               .block = b,
               .variant = variant,
               .rule = "H05",
               .what = "distance of the fuse from the source",
               .trouble = "no fuse block protects it",
               .source = "33 CFR 183.455: overcurrent "
                         "protection at the source",
               .cure = arena_printf(v->c->arena,
                                    "write a fuse block with protects: %.*s",
                                    (int)b->name.len, b->name.start),
               .at = b->at});
}

void protection_require(struct values *v) {
    const struct guide *g = v->guide;
    const variant_set *is_protected = protected_wires(v);
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (b->scope->parent == NULL)
            continue; /* of the facts: for whoever uses it */
        for (size_t k = 0; k < v->variant_count; k++) {
            const struct wire_outcome *o = v->of_block[i].outcome[k];
            if (o != NULL && o->has_feed && !o->cranking &&
                (is_protected[i] >> k & 1) == 0 &&
                !circuit_given_holds(v, b, k))
                require(v, b, k); /* a starter cable runs without a fuse */
        }
    }
}

/* protection.c - every wire on a supply has a fuse: the ones that none names.
 */
#include "base/arena.h"
#include "values/electrical.h"

/* Marks, by block index, the wires in a list of names. */
static void mark_named(const struct values *v, const struct block *fuse,
                       struct text list, bool *is_protected) {
    for (size_t from = 0, to; from <= list.len; from = to + 1) {
        for (to = from; to < list.len && list.start[to] != ',';)
            to++;
        struct text name = text_trim(text_part(list, from, to));
        const struct block *wire = values_block(v, fuse->scope, name, "wire");
        if (wire != NULL)
            is_protected[wire->index] = true;
    }
}

static const bool *protected_wires(const struct values *v) {
    const struct guide *g = v->guide;
    bool *is_protected =
        arena_alloc(v->c->arena, g->block_count + 1, sizeof *is_protected);
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        const struct entry *e = b->kind->id == KIND_FUSE && b->name.len > 0
                                    ? blocks_entry(v, b, "protects")
                                    : NULL;
        for (size_t k = 0; e != NULL && k < e->choice_count; k++)
            mark_named(v, b, e->choices[k].text, is_protected);
    }
    return is_protected;
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
    const bool *is_protected = protected_wires(v);
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (b->kind->id != KIND_WIRE || b->name.len == 0 ||
            b->scope->parent == NULL || is_protected[i])
            continue;
        for (size_t k = 0; k < v->variant_count; k++) {
            const struct wire_outcome *o = v->of_block[i].outcome[k];
            if (o != NULL && o->has_feed && !o->cranking)
                require(v, b, k); /* a starter cable runs without a fuse */
        }
    }
}

/* protection.c - every wire on a supply has a fuse: the ones that none names.
 */
#include "base/arena.h"
#include "values/electrical.h"

static bool names_wire(const struct values *v, const struct block *fuse,
                       const struct block *wire) {
    const struct entry *e = evaluate_entry(v, fuse, "protects");
    if (e == NULL)
        return false;
    for (size_t i = 0; i < e->choice_count; i++) {
        struct text t = e->choices[i].text;
        for (size_t from = 0, to; from <= t.len; from = to + 1) {
            for (to = from; to < t.len && t.start[to] != ',';)
                to++;
            struct text name = text_trim(text_part(t, from, to));
            if (block_named(v, fuse->scope, name, "wire") == wire)
                return true;
        }
    }
    return false;
}

static bool is_protected(const struct values *v, const struct block *wire) {
    const struct guide *g = v->guide;
    for (size_t i = 0; i < g->block_count; i++)
        if (g->blocks[i]->kind->id == KIND_FUSE && g->blocks[i]->name.len > 0 &&
            names_wire(v, g->blocks[i], wire))
            return true;
    return false;
}

void protection_require(struct values *v) {
    const struct guide *g = v->guide;
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (b->kind->id != KIND_WIRE || b->name.len == 0 ||
            b->scope->parent == NULL || is_protected(v, b))
            continue;
        for (size_t k = 0; k < v->variant_count; k++) {
            const struct wire_outcome *o = v->of_block[b->index].outcome[k];
            if (o == NULL || !o->has_feed || o->cranking)
                continue; /* a starter cable runs without a fuse */
            block_require(
                v, (struct requirement){
                       .block = b,
                       .variant = k,
                       .rule = "H05",
                       .what = "distance of the fuse from the source",
                       .trouble = "no fuse block protects it",
                       .source = "33 CFR 183.455: overcurrent protection at "
                                 "the source",
                       .cure = arena_printf(v->c->arena,
                                            "write a fuse block with protects: "
                                            "%.*s",
                                            (int)b->name.len, b->name.start),
                       .at = b->at});
        }
    }
}

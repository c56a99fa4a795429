/* protection.c - every wire on a supply has a fuse: the ones that none names,
 * and those whose fuse stands at another source than theirs. */
#include "base/arena.h"
#include "calc/fuse.h"
#include "values/circuit_given.h"
#include "values/electrical.h"
#include "values/point.h"
#include "values/range.h"
#include "values/self_limit.h"

/* By block index: the variants in which a fuse protects it, and those in which
 * one may stand at the source that it is fed by, at its plus or where no post
 * is named, or at its minus. */
struct protected {
    variant_set *by_any, *at_source, *at_plus, *at_minus;
    const struct block **fuse; /* the first */
};

/* The supply block of a wire; NULL: a voltage, or nothing. */
static const struct block *supply_of(struct values *v, const struct block *wire,
                                     size_t variant) {
    struct text name, state;
    electrical_split(block_text(v, wire, "supply", variant), &name, &state);
    return values_block(v, wire->scope, name, "supply");
}

/* Where a fuse has no place its own block says so. */
static bool is_far(struct values *v, const struct block *fuse,
                   const struct block *wire, size_t variant) {
    const struct value *place = block_setting(v, fuse, "place", variant);
    const struct block *supply = supply_of(v, wire, variant);
    return place->type == VALUE_QUANTITY && supply != NULL &&
           point_is_far(v, fuse->scope, place->text, supply);
}

/* Without a place there is a message already. */
static enum point_post post_of(struct values *v, const struct block *fuse,
                               size_t variant) {
    const struct value *place = block_setting(v, fuse, "place", variant);
    struct text name, post;
    if (place->type != VALUE_QUANTITY)
        return POINT_NO_POST;
    electrical_split(place->text, &name, &post);
    return point_post(post);
}

static void mark(struct values *v, const struct block *fuse, struct text names,
                 size_t variant, struct protected *p) {
    const struct block *const *wire;
    size_t count = blocks_listed(v, fuse, names, "wire", &wire);
    variant_set in = (variant_set)1 << variant;
    for (size_t i = 0; i < count; i++) {
        size_t k = wire[i]->index;
        p->by_any[k] |= in;
        if (p->fuse[k] == NULL)
            p->fuse[k] = fuse;
        if (is_far(v, fuse, wire[i], variant))
            continue;
        p->at_source[k] |= in;
        if (post_of(v, fuse, variant) == POINT_MINUS)
            p->at_minus[k] |= in;
        else
            p->at_plus[k] |= in;
    }
}

/* A list that could not be read has its message, and may have meant any of
 * them. */
static struct protected find_protected(struct values *v) {
    const struct guide *g = v->guide;
    struct protected p;
    size_t count = g->block_count + 1;
    p.by_any = arena_alloc(v->c->arena, count, sizeof *p.by_any);
    p.at_source = arena_alloc(v->c->arena, count, sizeof *p.at_source);
    p.at_plus = arena_alloc(v->c->arena, count, sizeof *p.at_plus);
    p.at_minus = arena_alloc(v->c->arena, count, sizeof *p.at_minus);
    p.fuse = arena_alloc(v->c->arena, count, sizeof(*p.fuse));
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        bool fuse = b->kind->id == KIND_FUSE && b->name.len > 0;
        for (size_t k = 0; fuse && k < v->variant_count; k++) {
            const struct value *names = block_setting(v, b, "protects", k);
            if (names->type == VALUE_TEXT)
                mark(v, b, names->text, k, &p);
            for (size_t n = 0; names->type == VALUE_BAD && n < g->block_count;
                 n++) {
                p.by_any[n] |= (variant_set)1 << k;
                p.at_source[n] |= (variant_set)1 << k;
                p.at_plus[n] |= (variant_set)1 << k;
                p.at_minus[n] |= (variant_set)1 << k;
            }
        }
    }
    return p;
}

static void require(struct values *v, const struct block *b, size_t variant,
                    const char *trouble, const char *cure) {
    block_require(v,
                  (struct requirement){
                      .block = b,
                      .variant = variant,
                      .rule = "H05",
                      .what = "distance of the fuse from the source",
                      .trouble = trouble,
                      .source = "33 CFR 183.455: overcurrent protection at the "
                                "source",
                      .cure = cure,
                      .at = b->at});
}

static void require_any(struct values *v, const struct block *b,
                        size_t variant) {
    require(v, b, variant, "no fuse block protects it",
            arena_printf(v->c->arena, "write a fuse block with protects: %.*s",
                         (int)b->name.len, b->name.start));
}

/* What limits itself needs none where the wire carries its output. */
static void require_near(struct values *v, const struct block *b,
                         size_t variant, const struct block *fuse,
                         const struct quantity *ampacity) {
    struct arena *a = v->c->arena;
    const struct block *supply = supply_of(v, b, variant);
    const char *source = text_cstr(a, supply->name);
    const char *wire = text_cstr(a, b->name);
    const struct quantity *output = self_limit_output(v, supply, variant);
    if (self_limit_holds(
            v,
            (struct requirement){
                .block = b,
                .variant = variant,
                .what = arena_printf(
                    a, "rated output of %s, into %s without a fuse there",
                    source, wire),
                .at = b->at},
            output, ampacity))
        return;
    const char *trouble = arena_printf(
        a,
        "its fuse %.*s stands at the other end, and a short is fed from %s "
        "too",
        (int)fuse->name.len, fuse->name.start, source);
    const char *near =
        arena_printf(a, "a second fuse with place: 5 in from %s", source);
    if (output != NULL)
        require(v, b, variant,
                arena_printf(a, "%s: that gives up to %s, and %s carries %s",
                             trouble, figure_of(a, output, FIGURE_HIGH), wire,
                             figure_of(a, ampacity, FIGURE_LOW)),
                arena_printf(a, "%s, or a larger wire", near));
    else if (text_is(block_text(v, supply, "chemistry", variant), "none"))
        require(v, b, variant, trouble,
                arena_printf(a,
                             "%s, or write the rated output: of %s, if %s "
                             "carries that",
                             near, source, wire));
    else
        require(v, b, variant, trouble, near);
}

static bool floats(struct values *v, const struct block *wire, size_t variant) {
    const struct block *supply = supply_of(v, wire, variant);
    return supply != NULL &&
           text_is(block_text(v, supply, "grounded post", variant), "none");
}

/* A block that is both conductors, out and back. */
static bool returns(struct values *v, const struct block *wire,
                    size_t variant) {
    return blocks_entry(v, wire, "loop") != NULL ||
           text_is(block_text(v, wire, "return", variant), "own wire");
}

/* Neither conductor is grounded, as circuit_unfused.c has it: plus has a fuse,
 * and minus is asked about. */
static void require_both(struct values *v, const struct block *b,
                         size_t variant, bool plus) {
    struct arena *a = v->c->arena;
    struct text source = supply_of(v, b, variant)->name;
    const char *cure = arena_printf(
        a, "a second fuse with place: 5 in from %.*s %s", (int)source.len,
        source.start, plus ? "-, or a double-pole breaker" : "+");
    block_require(
        v, (struct requirement){
               .block = b,
               .variant = variant,
               .rule = "H05",
               .what = "distance of the fuse from the source",
               .trouble = arena_printf(
                   a,
                   "it has a fuse at the %s of %.*s alone, and neither post of "
                   "it is grounded",
                   plus ? "plus" : "minus", (int)source.len, source.start),
               .source = FUSE_EACH_UNGROUNDED,
               .flag = plus,
               .cure = cure,
               .at = b->at});
}

void protection_require(struct values *v) {
    const struct guide *g = v->guide;
    struct protected p = find_protected(v);
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (b->scope->parent == NULL)
            continue; /* of the facts: for whoever uses it */
        for (size_t k = 0; k < v->variant_count; k++) {
            const struct wire_outcome *o = v->of_block[i].outcome[k];
            if (o == NULL || !o->has_feed || o->cranking ||
                circuit_given_holds(v, b, k))
                continue; /* a starter cable runs without a fuse */
            if ((p.by_any[i] >> k & 1) == 0)
                require_any(v, b, k);
            else if ((p.at_source[i] >> k & 1) == 0)
                require_near(v, b, k, p.fuse[i], o->ampacity);
            else if (floats(v, b, k) &&
                     ((p.at_plus[i] >> k & 1) == 0 ||
                      ((p.at_minus[i] >> k & 1) == 0 && returns(v, b, k))))
                require_both(v, b, k, p.at_plus[i] >> k & 1);
        }
    }
}

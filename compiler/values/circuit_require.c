/* circuit_require.c - what a circuit's wires must hold. */
#include "values/circuit_require.h"

#include "base/arena.h"
#include "calc/ampacity.h"
#include "values/circuit_guard.h"
#include "values/circuit_solve.h"

#include <math.h>

/* The current of an element in a state, over all ranges; NULL: none. */
static const struct quantity *current_of(struct values *v,
                                         const struct block *b, size_t variant,
                                         size_t state, const char *id) {
    struct arena *a = v->c->arena;
    struct text name = b->circuit->state[state].id;
    const char *full =
        state == 0 /* which needs no name */
            ? arena_printf(a, "%.*s.%s.current", (int)b->name.len,
                           b->name.start, id)
            : arena_printf(a, "%.*s.%.*s.%s.current", (int)b->name.len,
                           b->name.start, (int)name.len, name.start, id);
    struct slot *s = names_find(v, b->scope, text_of(full));
    if (s == NULL)
        return NULL;
    const struct value *value = evaluate_slot(v, s, variant);
    return value->type == VALUE_QUANTITY ? value->quantity : NULL;
}

static double size_of(const struct quantity *q) {
    struct ends e = range_ends(q);
    return fmax(fabs(e.low), fabs(e.high));
}

/* A start is over before a wire is hot. */
static bool starts(const struct circuit_state *s) {
    for (size_t i = 0; i < s->set_count; i++)
        if (text_is(s->set[i].word, "starting"))
            return true;
    return false;
}

/* The state, no start, in which a wire carries most. */
static const struct quantity *worst(struct values *v, const struct block *b,
                                    size_t variant, const char *id,
                                    struct text *state) {
    const struct quantity *most = NULL;
    for (size_t s = 0; s < b->circuit->state_count; s++) {
        if (starts(&b->circuit->state[s]))
            continue;
        const struct quantity *q = current_of(v, b, variant, s, id);
        if (q == NULL || (most != NULL && size_of(q) <= size_of(most)))
            continue;
        most = q;
        *state = b->circuit->state[s].name;
    }
    return most;
}

/* The fuse or breaker before a wire in its own run, the nearest; NULL. */
static const struct circuit_piece *fuse_before(const struct circuit_work *w,
                                               size_t wire) {
    size_t branch = w->c->element[wire].branch;
    for (size_t i = wire; i-- > 0 && w->c->element[i].branch == branch;)
        if (w->part[i].law != LAWS && w->part[i].rating != NULL)
            return &w->part[i];
    return NULL;
}

static void require_fuse(struct values *v, const struct block *b,
                         size_t variant, const struct circuit_piece *fuse,
                         const struct circuit_piece *wire,
                         const struct quantity *ampacity) {
    block_require(
        v, (struct requirement){
               .block = b,
               .variant = variant,
               .rule = "H06",
               .what = arena_printf(v->c->arena,
                                    "rating of %s against the ampacity of %s",
                                    fuse->name, wire->name),
               .left = fuse->rating,
               .right = ampacity,
               .relation = RELATION_AT_MOST,
               .source = wire->run->ampacity.source,
               .cure = "a smaller fuse, or a thicker wire",
               .at = fuse->element->at});
}

static void require_wire(struct values *v, const struct block *b,
                         size_t variant, const struct circuit_work *w,
                         size_t wire) {
    const struct circuit_piece *p = &w->part[wire];
    struct text state = {NULL, 0};
    const struct quantity *current = worst(v, b, variant, p->name, &state);
    if (current == NULL)
        return;
    const struct quantity *of_ambient[] = {p->figure[2]};
    const struct quantity *ampacity = quantity_call(
        &v->maker, wire_calculation(WIRE_AMPACITY), p->run, of_ambient);
    const struct quantity *carried = quantity_abs(&v->maker, current);
    const struct circuit_piece *fuse = fuse_before(w, wire);
    /* A wire too thin for its load is one slip, not two. */
    if (fuse != NULL && requirement_at_most(&v->maker, carried, ampacity))
        require_fuse(v, b, variant, fuse, p, ampacity);
    block_require(
        v, (struct requirement){
               .block = b,
               .variant = variant,
               .rule = "ampacity",
               .what = arena_printf(v->c->arena,
                                    "current in %s%s%.*s, against its ampacity",
                                    p->name, state.len > 0 ? ", " : "",
                                    (int)state.len, state.start),
               .left = carried,
               .right = ampacity,
               .relation = RELATION_AT_MOST,
               .source = p->run->ampacity.source,
               .cure = "a thicker wire, insulation for more heat, or less load",
               .at = p->element->at});
}

static bool is_found(struct values *v, const struct block *b, size_t variant) {
    const struct value *found = block_setting(v, b, "as found", variant);
    return found->type == VALUE_TRUTH && found->truth;
}

static void require_circuit(struct values *v, const struct block *b,
                            size_t variant) {
    const struct circuit_work *w = v->of_block[b->index].circuit[variant];
    if (w == NULL || is_found(v, b, variant))
        return;
    for (size_t i = 0; i < b->circuit->element_count; i++)
        if (w->part[i].law == LAW_WIRE)
            require_wire(v, b, variant, w, i);
    circuit_guard_require(w);
}

void circuit_require(struct values *v) {
    for (size_t i = 0; i < v->guide->block_count; i++) {
        const struct block *b = v->guide->blocks[i];
        if (b->circuit == NULL || b->circuit->bad)
            continue;
        for (size_t variant = 0; variant < v->variant_count; variant++)
            if (v->applies >> variant & 1)
                require_circuit(v, b, variant);
    }
}

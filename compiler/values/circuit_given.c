/* circuit_given.c - what a circuit says of the wire and fuse blocks that it
 * names.
 *
 * Only what is written counts, nothing that is solved: the size of a wire hangs
 * on this, and the solution on the size. */
#include "values/circuit_given.h"

#include "base/arena.h"
#include "source/circuit_tree.h"
#include "values/circuit_duty.h"
#include "values/circuit_look.h"
#include "values/circuit_part.h"
#include "values/electrical.h"
#include "values/expression.h"
#include "values/range.h"

#include <math.h>
#include <string.h>

static const struct value absent = {.type = VALUE_ABSENT};

/* A sum has no name yet; a figure of the author's keeps its own. */
static struct value quantity_given(const struct look *k, const char *name,
                                   struct quantity *q) {
    if (q == NULL)
        return absent;
    if (q->op == QUANTITY_ADD && q->name.len == 0)
        q->name = text_of(arena_printf(k->v->c->arena, "%s by circuit %.*s",
                                       name, (int)k->circuit->name.len,
                                       k->circuit->name.start));
    return (struct value){
        .type = VALUE_QUANTITY, .quantity = q, .at = k->circuit->at};
}

static struct value text_given(const struct look *k, struct text t) {
    return (struct value){.type = VALUE_TEXT, .text = t, .at = k->circuit->at};
}

static struct value load_given(const struct look *k) {
    size_t n = k->c->element_count;
    bool *load = arena_alloc(k->v->c->arena, n, sizeof *load);
    struct load_current current;
    size_t count = circuit_loads_most(k, load, &current);
    for (size_t i = 0; count == 1 && i < n; i++)
        if (load[i] && circuit_look_block(k, i, "load") != NULL)
            return text_given(k, k->c->element[i].word[0]);
    struct value value = quantity_given(k, "load", current.used);
    value.with = quantity_given(k, "load", current.most).quantity;
    value.low = current.low;
    value.high = current.high;
    return value;
}

/* Not which of its voltages: a share of the lowest is the safe one. */
static struct value supply_given(const struct look *k) {
    return text_given(k, k->c->supply[0].name);
}

static bool is_used(const struct look *k) {
    for (size_t e = 0; e < k->c->element_count; e++)
        if (circuit_look_uses(k, e))
            return true;
    return false;
}

static bool is_fuse(const struct look *k, size_t e) {
    enum circuit_part part = k->c->element[e].part;
    return (part == CIRCUIT_FUSE || part == CIRCUIT_BREAKER) &&
           circuit_look_here(k, e);
}

/* Marks the wires of one path up to its next fuse; false: there is one. */
static bool mark_wires(const struct look *k, size_t from, size_t to,
                       bool *wire) {
    for (size_t e = from; e < to; e++) {
        if (is_fuse(k, e))
            return false;
        if (k->c->element[e].part == CIRCUIT_WIRE && circuit_look_here(k, e))
            wire[e] = true;
    }
    return true;
}

static void wires_behind(const struct look *k, size_t fuse, bool *wire) {
    bool *seen = arena_alloc(k->v->c->arena, k->c->point_count, sizeof *seen);
    const struct circuit_branch *own =
        &k->c->branch[k->c->element[fuse].branch];
    if (!mark_wires(k, fuse + 1, own->first + own->count, wire))
        return;
    seen[own->to] = true;
    for (bool grown = true; grown;) {
        grown = false;
        for (size_t i = 0; i < k->c->branch_count; i++) {
            const struct circuit_branch *b = &k->c->branch[i];
            if (!seen[b->from] || circuit_look_post(k, b->from, true) ||
                circuit_look_post(k, b->from, false) || seen[b->to] ||
                !mark_wires(k, b->first, b->first + b->count, wire))
                continue;
            seen[b->to] = grown = true;
        }
    }
}

/* "feed, tail": the wire blocks behind the fuse of that name. */
static struct value protects_given(const struct look *k,
                                   const struct block *fuse) {
    size_t n = k->c->element_count;
    bool *wire = arena_alloc(k->v->c->arena, n, sizeof *wire);
    struct buf names = buf_in(k->v->c->arena);
    for (size_t e = 0; e < n; e++)
        if (is_fuse(k, e) && text_equal(k->c->element[e].name, fuse->name) &&
            values_block(k->v, k->circuit->scope, fuse->name, "fuse") == fuse)
            wires_behind(k, e, wire);
    for (size_t e = 0; e < n; e++) {
        const struct block *b =
            wire[e] ? circuit_look_block(k, e, "wire") : NULL;
        bool again = false;
        for (size_t i = 0; i < e && b != NULL; i++)
            again = again || (wire[i] && circuit_look_block(k, i, "wire") == b);
        if (b == NULL || again)
            continue;
        if (names.len > 0)
            buf_puts(&names, ", ");
        buf_text(&names, b->name);
    }
    return names.len == 0 ? absent : text_given(k, buf_as_text(&names));
}

/* Several loads together, or one without a block, are a current that nobody
 * named, and their duty went with their names: intermittent where each of them
 * says so. */
static struct value duty_given(const struct look *k) {
    static const char intermittent[] = "intermittent";
    size_t n = k->c->element_count;
    bool *load = arena_alloc(k->v->c->arena, n, sizeof *load);
    struct load_current current;
    size_t count = circuit_loads_most(k, load, &current);
    for (size_t i = 0; count > 0 && i < n; i++)
        if (load[i] && !text_is(circuit_duty_of(k->v, k->circuit,
                                                &k->c->element[i], k->variant),
                                intermittent))
            return absent;
    return count > 0 ? text_given(k, text_of(intermittent)) : absent;
}

/* The next circuit, from block *i on, that names a wire block. */
static bool next_naming(struct values *v, const struct block *wire,
                        size_t variant, size_t *i, struct look *k) {
    while (*i < v->guide->block_count)
        if (circuit_look_at(v, v->guide->blocks[(*i)++], variant, k)) {
            k->wire = wire;
            if (is_used(k))
                return true;
        }
    return false;
}

/* Of all circuits that name the block: each must say so. */
static struct value duty_of_all(struct values *v, const struct block *b,
                                size_t variant) {
    struct value duty = absent;
    struct look k;
    size_t i = 0;
    while (next_naming(v, b, variant, &i, &k)) {
        duty = duty_given(&k);
        if (duty.type == VALUE_ABSENT)
            break;
    }
    return duty;
}

struct value circuit_look_gives(struct look *k, const struct block *b,
                                const char *setting) {
    if (b->kind->id == KIND_FUSE)
        return strcmp(setting, "protects") == 0 ? protects_given(k, b) : absent;
    k->wire = b;
    if (!is_used(k))
        return absent;
    if (strcmp(setting, "supply") == 0)
        return supply_given(k);
    if (strcmp(setting, "load") == 0)
        return load_given(k);
    return quantity_given(k, "loop", circuit_route_longest(k));
}

static bool may_give(const struct block *b, const char *setting) {
    if (b->name.len == 0)
        return false;
    return b->kind->id == KIND_FUSE
               ? strcmp(setting, "protects") == 0
               : b->kind->id == KIND_WIRE && (strcmp(setting, "load") == 0 ||
                                              strcmp(setting, "loop") == 0 ||
                                              strcmp(setting, "supply") == 0);
}

/* By how much a circuit asks most of a block. */
static double weight_of(struct look *k, const struct value *value,
                        const char *setting) {
    struct load_current current;
    if (strcmp(setting, "loop") == 0)
        return circuit_look_most_of(value->quantity);
    if (strcmp(setting, "load") != 0)
        return 0;
    circuit_loads_most(
        k, arena_alloc(k->v->c->arena, k->c->element_count, sizeof(bool)),
        &current);
    return circuit_look_most_of(current.most);
}

/* Where several circuits name the block, what the one says that asks most. */
struct value circuit_look_most(struct values *v, const struct block *b,
                               const char *setting, size_t variant,
                               struct look *by) {
    struct value best = absent;
    double most = NAN; /* of the best, once it is asked */
    for (size_t i = 0; i < v->guide->block_count; i++) {
        struct look k;
        if (!circuit_look_at(v, v->guide->blocks[i], variant, &k))
            continue;
        struct value value = circuit_look_gives(&k, b, setting);
        if (value.type == VALUE_ABSENT)
            continue;
        if (best.type != VALUE_ABSENT) {
            double weight = weight_of(&k, &value, setting);
            most = isnan(most) ? weight_of(by, &best, setting) : most;
            if (!(weight > most))
                continue;
            most = weight;
        }
        best = value;
        *by = k;
    }
    return best;
}

static bool has_digit(struct text t) {
    for (size_t i = 0; i < t.len; i++)
        if (t.start[i] >= '0' && t.start[i] <= '9')
            return true;
    return false;
}

/* A load or a wire that nobody can read: it has its own message. */
static bool is_unreadable(const struct look *k, size_t e) {
    struct text word = k->c->element[e].word_count == 0
                           ? (struct text){NULL, 0}
                           : k->c->element[e].word[0];
    const struct block *b;
    if (circuit_look_load(k, e)) {
        b = circuit_look_block(k, e, "load");
        return b != NULL ? block_is_bad(k->v, b, "current", k->variant)
                         : !circuit_part_is_kind(word);
    }
    if (k->c->element[e].part != CIRCUIT_WIRE || !circuit_look_here(k, e))
        return false;
    b = circuit_look_block(k, e, "wire");
    return b != NULL
               ? circuit_look_figure(k, k->c->element[e].word[1], "m") == NULL
               : !has_digit(word);
}

/* Nobody knows what a circuit with a mistake in it would have said. */
static bool any_bad(struct values *v, size_t variant) {
    for (size_t i = 0; i < v->guide->block_count; i++) {
        const struct block *b = v->guide->blocks[i];
        if (b->kind->id != KIND_CIRCUIT)
            continue;
        if (b->circuit == NULL || b->circuit->bad)
            return true;
        struct look k;
        if (!circuit_look_at(v, b, variant, &k))
            continue;
        for (size_t e = 0; e < k.c->element_count; e++)
            if (is_unreadable(&k, e))
                return true;
    }
    return false;
}

struct value circuit_given(struct values *v, const struct block *b,
                           const char *setting, size_t variant) {
    struct look by;
    if (b->kind->id == KIND_WIRE && strcmp(setting, "duty") == 0)
        return b->name.len == 0 || blocks_entry(v, b, "load") != NULL
                   ? absent
                   : duty_of_all(v, b, variant);
    if (!may_give(b, setting) ||
        (strcmp(setting, "loop") == 0 && blocks_entry(v, b, "length") != NULL))
        return absent;
    struct value value = circuit_look_most(v, b, setting, variant, &by);
    return value.type == VALUE_ABSENT && any_bad(v, variant)
               ? (struct value){.type = VALUE_BAD}
               : value;
}

struct quantity *circuit_given_loaded(struct values *v, const struct block *b,
                                      size_t variant,
                                      const struct quantity *most) {
    struct quantity *longest = NULL;
    if (blocks_entry(v, b, "load") != NULL ||
        blocks_entry(v, b, "loop") != NULL ||
        blocks_entry(v, b, "length") != NULL)
        return NULL;
    struct look k;
    size_t i = 0;
    while (next_naming(v, b, variant, &i, &k)) {
        struct quantity *one =
            circuit_route_loaded(&k, circuit_look_most_of(most));
        if (circuit_look_most_of(one) > circuit_look_most_of(longest)) {
            longest = one;
            quantity_given(&k, "loop as loaded", one);
        }
    }
    return longest;
}

bool circuit_given_holds(struct values *v, const struct block *wire,
                         size_t variant) {
    struct look k;
    size_t i = 0;
    return next_naming(v, wire, variant, &i, &k);
}

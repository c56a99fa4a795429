/* circuit_given.c - what a circuit says of the wire and fuse blocks that it
 * names.
 *
 * Only what is written counts, nothing that is solved: the size of a wire hangs
 * on this, and the solution on the size. A route leads from a plus post to a
 * minus post along the paths as they are written; the loop of a wire block is
 * the longest sum of its wires on one. */
#include "values/circuit_given.h"

#include "base/arena.h"
#include "source/circuit_tree.h"
#include "values/circuit_look.h"
#include "values/circuit_part.h"
#include "values/electrical.h"
#include "values/expression.h"
#include "values/range.h"

#include <math.h>
#include <string.h>

enum { ROUTES_MAX = 2000 };

static const struct value absent = {.type = VALUE_ABSENT};

static bool is_here(const struct look *k, size_t element) {
    return values_tagged(k->v, &k->c->element[element].tags) >> k->variant & 1;
}

static bool is_load(const struct look *k, size_t i) {
    return k->c->element[i].part == CIRCUIT_LOAD && is_here(k, i);
}

static const struct block *block_of(const struct look *k, size_t element,
                                    const char *kind) {
    const struct circuit_element *e = &k->c->element[element];
    return e->word_count == 0
               ? NULL
               : values_block(k->v, k->circuit->scope, e->word[0], kind);
}

static bool uses(const struct look *k, size_t element) {
    return k->c->element[element].part == CIRCUIT_WIRE && is_here(k, element) &&
           block_of(k, element, "wire") == k->wire;
}

bool circuit_look_at(struct values *v, const struct block *circuit,
                     size_t variant, struct look *k) {
    *k = (struct look){
        .v = v, .circuit = circuit, .c = circuit->circuit, .variant = variant};
    return circuit->circuit != NULL && !circuit->circuit->bad &&
           !circuit_part_is_found(v, circuit, variant);
}

/* `7.6 A at 13.2 V`, `2.6 m`: the first figure of a word; NULL: none. */
static struct quantity *figure(const struct look *k, struct text word,
                               const char *unit) {
    struct expression x =
        expression_over(k->v, k->circuit->scope, k->variant, word);
    struct value value = expression_sum(&x);
    bool fits =
        value.type == VALUE_QUANTITY &&
        dim_same(value.quantity->dim, unit_find(unit, strlen(unit))->dim);
    return fits ? value.quantity : NULL;
}

static struct quantity *sum(const struct look *k, struct quantity *a,
                            struct quantity *b) {
    if (a == NULL || b == NULL)
        return a == NULL ? b : a;
    struct quantity *q = quantity_binary(&k->v->maker, QUANTITY_ADD, a, b);
    q->unit = a->unit;
    return q;
}

static double most_of(const struct quantity *q) {
    return q == NULL ? -INFINITY : range_ends(q).high;
}

static bool is_post(const struct look *k, size_t point, bool minus) {
    return k->c->point[point].supply != CIRCUIT_NONE &&
           k->c->point[point].minus == minus;
}

/* Every route on from a point, with the length so far. */
static void walk(struct look *k, size_t point, struct quantity *length) {
    if (most_of(length) > most_of(k->longest))
        k->longest = length;
    if (++k->routes > ROUTES_MAX || k->on[point] || is_post(k, point, true) ||
        is_post(k, point, false))
        return;
    k->on[point] = true;
    for (size_t i = 0; i < k->c->branch_count; i++)
        if (k->c->branch[i].from == point) {
            const struct circuit_branch *b = &k->c->branch[i];
            struct quantity *more = length;
            for (size_t e = b->first; e < b->first + b->count; e++)
                if (uses(k, e))
                    more =
                        sum(k, more, figure(k, k->c->element[e].word[1], "m"));
            walk(k, b->to, more);
        }
    k->on[point] = false;
}

static struct quantity *loop_of(struct look *k) {
    k->on = arena_alloc(k->v->c->arena, k->c->point_count, sizeof *k->on);
    for (size_t i = 0; i < k->c->branch_count; i++) {
        const struct circuit_branch *b = &k->c->branch[i];
        struct quantity *length = NULL;
        if (!is_post(k, b->from, false))
            continue;
        for (size_t e = b->first; e < b->first + b->count; e++)
            if (uses(k, e))
                length =
                    sum(k, length, figure(k, k->c->element[e].word[1], "m"));
        walk(k, b->to, length);
    }
    return k->longest;
}

/* Loads that an element feeds: the first on each way on, in writing. */
static void loads_behind(const struct look *k, size_t element, bool *load) {
    bool *seen = arena_alloc(k->v->c->arena, k->c->point_count, sizeof *seen);
    const struct circuit_branch *own =
        &k->c->branch[k->c->element[element].branch];
    for (size_t e = element; e < own->first + own->count; e++)
        if (is_load(k, e)) {
            load[e] = true;
            return;
        }
    seen[own->to] = !is_post(k, own->to, true) && !is_post(k, own->to, false);
    for (bool grown = true; grown;) {
        grown = false;
        for (size_t i = 0; i < k->c->branch_count; i++) {
            const struct circuit_branch *b = &k->c->branch[i];
            size_t e = b->first;
            if (!seen[b->from] || seen[b->to])
                continue;
            while (e < b->first + b->count && !is_load(k, e))
                e++;
            if (e < b->first + b->count)
                load[e] = true;
            else if (!is_post(k, b->to, true) && !is_post(k, b->to, false))
                seen[b->to] = grown = true;
        }
    }
}

/* What the words behind a load's kind say: `7.6 A at 13.2 V`. */
static struct load_amount amount_of(const struct look *k, size_t load) {
    const struct circuit_element *e = &k->c->element[load];
    struct load_amount amount = {
        .kind = LOAD_LEVEL, .limit = drop_limit_usual(k->v, NULL, k->variant)};
    if (e->word_count < 2)
        return amount;
    amount.kind = load_kind_find(e->word[0].start, e->word[0].len);
    struct text volt = e->word[1];
    amount.current = figure(k, e->word[1], "A");
    while (volt.len > 0 && !text_starts(volt, " at "))
        volt = text_part(volt, 1, volt.len);
    if (volt.len > 0)
        amount.at = figure(k, text_part(volt, 4, volt.len), "V");
    return amount;
}

/* What a load takes: by its block or by its line; NULL: not told in amperes. */
static struct load_current current_of(const struct look *k, size_t load,
                                      const struct feed *feed) {
    const struct block *b = block_of(k, load, "load");
    struct load_amount amount =
        b != NULL ? electrical_amount(k->v, b, k->variant) : amount_of(k, load);
    return electrical_load(k->v, &amount, feed);
}

/* The loads behind the wire of the block that carries most; how many. */
static size_t loads_of(const struct look *k, bool *load,
                       struct load_current *current) {
    size_t n = k->c->element_count, best = 0;
    bool *own = arena_alloc(k->v->c->arena, n, sizeof *own);
    struct feed feed;
    electrical_voltages(k->v, k->wire, k->variant, &feed);
    *current = (struct load_current){.used = NULL};
    for (size_t e = 0; e < n; e++) {
        struct load_current all = {.used = NULL};
        size_t count = 0;
        bool known = true;
        if (!uses(k, e))
            continue;
        memset(own, 0, n * sizeof *own);
        loads_behind(k, e, own);
        for (size_t i = 0; i < n; i++) {
            if (!own[i])
                continue;
            struct load_current one = current_of(k, i, &feed);
            known = known && one.used != NULL;
            all.used = sum(k, all.used, one.used);
            all.most = sum(k, all.most, one.most);
            bool level = one.low == NULL; /* as much at any voltage */
            all.low = sum(k, all.low, level ? one.used : one.low);
            all.high = sum(k, all.high, level ? one.used : one.high);
            count++;
        }
        if (!known || most_of(all.most) <= most_of(current->most))
            continue;
        *current = all;
        best = count;
        memcpy(load, own, n * sizeof *load);
    }
    return best;
}

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
    size_t count = loads_of(k, load, &current);
    for (size_t i = 0; count == 1 && i < n; i++)
        if (load[i] && block_of(k, i, "load") != NULL)
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
        if (uses(k, e))
            return true;
    return false;
}

static bool is_fuse(const struct look *k, size_t e) {
    enum circuit_part part = k->c->element[e].part;
    return (part == CIRCUIT_FUSE || part == CIRCUIT_BREAKER) && is_here(k, e);
}

/* Marks the wires of one path up to its next fuse; false: there is one. */
static bool mark_wires(const struct look *k, size_t from, size_t to,
                       bool *wire) {
    for (size_t e = from; e < to; e++) {
        if (is_fuse(k, e))
            return false;
        if (k->c->element[e].part == CIRCUIT_WIRE && is_here(k, e))
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
            if (!seen[b->from] || is_post(k, b->from, true) ||
                is_post(k, b->from, false) || seen[b->to] ||
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
        const struct block *b = wire[e] ? block_of(k, e, "wire") : NULL;
        bool again = false;
        for (size_t i = 0; i < e && b != NULL; i++)
            again = again || (wire[i] && block_of(k, i, "wire") == b);
        if (b == NULL || again)
            continue;
        if (names.len > 0)
            buf_puts(&names, ", ");
        buf_text(&names, b->name);
    }
    return names.len == 0 ? absent : text_given(k, buf_as_text(&names));
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
    return quantity_given(k, "loop", loop_of(k));
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
        return most_of(value->quantity);
    if (strcmp(setting, "load") != 0)
        return 0;
    loads_of(k, arena_alloc(k->v->c->arena, k->c->element_count, sizeof(bool)),
             &current);
    return most_of(current.most);
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
    if (is_load(k, e)) {
        b = block_of(k, e, "load");
        return b != NULL ? block_is_bad(k->v, b, "current", k->variant)
                         : !circuit_part_is_kind(word);
    }
    if (k->c->element[e].part != CIRCUIT_WIRE || !is_here(k, e))
        return false;
    b = block_of(k, e, "wire");
    return b != NULL ? figure(k, k->c->element[e].word[1], "m") == NULL
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
    if (!may_give(b, setting) ||
        (strcmp(setting, "loop") == 0 && blocks_entry(v, b, "length") != NULL))
        return absent;
    struct value value = circuit_look_most(v, b, setting, variant, &by);
    return value.type == VALUE_ABSENT && any_bad(v, variant)
               ? (struct value){.type = VALUE_BAD}
               : value;
}

bool circuit_given_holds(struct values *v, const struct block *wire,
                         size_t variant) {
    for (size_t i = 0; i < v->guide->block_count; i++) {
        struct look k;
        if (!circuit_look_at(v, v->guide->blocks[i], variant, &k))
            continue;
        k.wire = wire;
        if (is_used(&k))
            return true;
    }
    return false;
}

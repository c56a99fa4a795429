/* circuit_loads.c - what the wires of a block carry, as a circuit is written.
 */
#include "base/arena.h"
#include "values/circuit_look.h"
#include "values/self_limit.h"

#include <stdint.h>
#include <string.h>

static bool is_post(const struct look *k, size_t point) {
    return circuit_look_post(k, point, true) ||
           circuit_look_post(k, point, false);
}

/* The way through a circuit from plus to minus, or against it. */
static size_t begins_at(const struct look *k, size_t branch, bool against) {
    return (against ? circuit_look_to : circuit_look_from)(k, branch);
}

static size_t element_at(const struct look *k, size_t branch, bool against,
                         size_t i) {
    size_t last = k->c->branch[branch].count - 1;
    return circuit_look_element(k, branch, against ? last - i : i);
}

/* Marks the first load of a branch at `place` or behind it; false: none is. */
static bool mark_first(const struct look *k, size_t branch, bool against,
                       size_t place, bool *load) {
    for (size_t i = place; i < k->c->branch[branch].count; i++) {
        size_t e = element_at(k, branch, against, i);
        if (circuit_look_load(k, e))
            return load[e] = true;
    }
    return false;
}

/* Loads that an element feeds, or whose current it brings back: the first on
 * each way on, or against it, in writing. */
static void find_loads(const struct look *k, size_t element, bool against,
                       bool *load) {
    bool *seen = arena_alloc(k->v->c->arena, k->c->point_count, sizeof *seen);
    size_t own = k->c->element[element].branch, place = 0;
    while (element_at(k, own, against, place) != element)
        place++;
    if (mark_first(k, own, against, place, load))
        return;
    size_t end = begins_at(k, own, !against);
    seen[end] = !is_post(k, end);
    for (bool grown = true; grown;) {
        grown = false;
        for (size_t i = 0; i < k->c->branch_count; i++) {
            size_t on = begins_at(k, i, !against);
            if (seen[begins_at(k, i, against)] && !seen[on] &&
                !mark_first(k, i, against, 0, load) && !is_post(k, on))
                seen[on] = grown = true;
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
    amount.current = circuit_look_figure(k, e->word[1], "A");
    while (volt.len > 0 && !text_starts(volt, " at "))
        volt = text_part(volt, 1, volt.len);
    if (volt.len > 0)
        amount.at = circuit_look_figure(k, text_part(volt, 4, volt.len), "V");
    return amount;
}

/* What a load takes: by its block or by its line; NULL: not told in amperes. */
static struct load_current current_of(const struct look *k, size_t load,
                                      const struct feed *feed) {
    const struct block *b = circuit_look_block(k, load, "load");
    struct load_amount amount =
        b != NULL ? electrical_amount(k->v, b, k->variant) : amount_of(k, load);
    return electrical_load(k->v, &amount, feed);
}

/* The loads of a wire: that it feeds, or brings back where it feeds none. */
static void loads_at(const struct look *k, size_t wire, bool *load) {
    size_t n = k->c->element_count;
    memset(load, 0, n * sizeof *load);
    find_loads(k, wire, false, load);
    if (memchr(load, true, n) == NULL)
        find_loads(k, wire, true, load);
}

/* What each load takes, once it is asked: by element. */
struct taken {
    bool known;
    struct load_current current;
};

static struct load_current taken_by(const struct look *k, size_t load,
                                    const struct feed *feed,
                                    struct taken *taken) {
    struct taken *one = &taken[load];
    if (!one->known)
        one->current = current_of(k, load, feed);
    one->known = true;
    return one->current;
}

static struct taken *taken_none(const struct look *k) {
    return arena_alloc(k->v->c->arena, k->c->element_count,
                       sizeof(struct taken));
}

/* What marked loads take together. How many; SIZE_MAX: one does not say. */
static size_t sum_of(const struct look *k, const bool *load,
                     const struct feed *feed, struct taken *taken,
                     struct load_current *all) {
    size_t count = 0;
    *all = (struct load_current){.used = NULL};
    for (size_t i = 0; i < k->c->element_count; i++) {
        if (!load[i])
            continue;
        struct load_current one = taken_by(k, i, feed, taken);
        if (one.used == NULL)
            return SIZE_MAX;
        all->used = circuit_look_sum(k, all->used, one.used);
        all->most = circuit_look_sum(k, all->most, one.most);
        bool level = one.low == NULL; /* as much at any voltage */
        all->low = circuit_look_sum(k, all->low, level ? one.used : one.low);
        all->high = circuit_look_sum(k, all->high, level ? one.used : one.high);
        count++;
    }
    return count;
}

/* What a source that limits itself gives to the only path at one of its posts;
 * NULL: it is no such post, or has more paths. */
static struct quantity *output_at(const struct look *k, size_t point) {
    const struct circuit_point *post = &k->c->point[point];
    size_t paths = 0;
    if (post->supply == CIRCUIT_NONE)
        return NULL;
    for (size_t i = 0; i < k->c->branch_count; i++) {
        paths += k->c->branch[i].from == point;
        paths += k->c->branch[i].to == point;
    }
    const struct block *supply = values_block(
        k->v, k->circuit->scope, k->c->supply[post->supply].name, "supply");
    return paths == 1 && self_limit_output(k->v, supply, k->variant) != NULL
               ? block_setting(k->v, supply, "rated output", k->variant)
                     ->quantity
               : NULL;
}

/* A wire on the post of a source that limits itself carries no more than this
 * gives, whatever hangs on it. */
static bool limit(const struct look *k, size_t wire, struct load_current *all) {
    const struct circuit_branch *b = &k->c->branch[k->c->element[wire].branch];
    size_t end[] = {b->from, b->to};
    bool limited = false;
    for (int i = 0; i < 2; i++) {
        struct quantity *output = output_at(k, end[i]);
        if (output == NULL ||
            circuit_look_most_of(output) >= circuit_look_most_of(all->most))
            continue;
        *all = (struct load_current){.used = output, .most = output};
        limited = true;
    }
    return limited;
}

size_t circuit_loads_of(const struct look *k, size_t wire,
                        const struct feed *feed, bool *load,
                        struct load_current *all) {
    loads_at(k, wire, load);
    size_t count = sum_of(k, load, feed, taken_none(k), all);
    if (count != SIZE_MAX && count > 0)
        limit(k, wire, all);
    return count;
}

size_t circuit_loads_most(const struct look *k, bool *load,
                          struct load_current *current) {
    size_t n = k->c->element_count, best = 0;
    bool *own = arena_alloc(k->v->c->arena, n, sizeof *own);
    bool *last = arena_alloc(k->v->c->arena, n, sizeof *last);
    struct taken *taken = taken_none(k);
    struct feed feed;
    electrical_voltages(k->v, k->wire, k->variant, &feed);
    *current = (struct load_current){.used = NULL};
    for (size_t e = 0; e < n; e++) {
        struct load_current all;
        if (!circuit_look_uses(k, e))
            continue;
        loads_at(k, e, own);
        if (memcmp(own, last, n * sizeof *own) == 0)
            continue; /* as much as the wire before it, or nothing */
        memcpy(last, own, n * sizeof *own);
        size_t count = sum_of(k, own, &feed, taken, &all);
        bool limited = count != SIZE_MAX && count > 0 && limit(k, e, &all);
        if (limited) /* the next with these loads may carry them all */
            memset(last, 0, n * sizeof *last);
        if (count == SIZE_MAX || circuit_look_most_of(all.most) <=
                                     circuit_look_most_of(current->most))
            continue;
        if (limited)
            count = 2; /* no load's own current */
        *current = all;
        best = count;
        memcpy(load, own, n * sizeof *load);
    }
    return best;
}

/* circuit_look.c - one circuit, in one variant, as it is written. */
#include "values/circuit_look.h"

#include "base/arena.h"
#include "values/circuit_part.h"
#include "values/expression.h"
#include "values/range.h"

#include <math.h>
#include <string.h>

bool circuit_look_here(const struct look *k, size_t element) {
    return values_tagged(k->v, &k->c->element[element].tags) >> k->variant & 1;
}

bool circuit_look_load(const struct look *k, size_t i) {
    return k->c->element[i].part == CIRCUIT_LOAD && circuit_look_here(k, i) &&
           !circuit_part_dropping(&k->c->element[i]);
}

const struct block *circuit_look_block(const struct look *k, size_t element,
                                       const char *kind) {
    const struct circuit_element *e = &k->c->element[element];
    return e->word_count == 0
               ? NULL
               : values_block(k->v, k->circuit->scope, e->word[0], kind);
}

bool circuit_look_uses(const struct look *k, size_t element) {
    return k->c->element[element].part == CIRCUIT_WIRE &&
           circuit_look_here(k, element) &&
           circuit_look_block(k, element, "wire") == k->wire;
}

static bool is_post(const struct circuit *c, size_t point, bool minus) {
    return c->point[point].supply != CIRCUIT_NONE &&
           c->point[point].minus == minus;
}

/* Paths that begin at a minus post, or end at a plus post, are written against
 * the current; not those between two posts that are alike: a charging cable. */
void circuit_look_back(const struct circuit *c, bool *back) {
    for (size_t i = 0, next; i < c->branch_count; i = next) {
        for (next = i + 1; next < c->branch_count && !c->branch[next].begins;)
            next++;
        size_t from = c->branch[i].from, to = c->branch[next - 1].to;
        bool minus = is_post(c, from, true), plus = is_post(c, to, false);
        for (size_t b = i; b < next; b++)
            back[b] = (minus && !is_post(c, to, true)) ||
                      (plus && !is_post(c, from, false));
    }
}

bool circuit_look_at(struct values *v, const struct block *circuit,
                     size_t variant, struct look *k) {
    *k = (struct look){
        .v = v, .circuit = circuit, .c = circuit->circuit, .variant = variant};
    if (circuit->circuit == NULL || circuit->circuit->bad ||
        circuit_part_is_found(v, circuit, variant))
        return false;
    k->back = arena_alloc(v->c->arena, k->c->branch_count, sizeof *k->back);
    circuit_look_back(k->c, k->back);
    return true;
}

size_t circuit_look_from(const struct look *k, size_t branch) {
    const struct circuit_branch *b = &k->c->branch[branch];
    return k->back[branch] ? b->to : b->from;
}

size_t circuit_look_to(const struct look *k, size_t branch) {
    const struct circuit_branch *b = &k->c->branch[branch];
    return k->back[branch] ? b->from : b->to;
}

size_t circuit_look_element(const struct look *k, size_t branch, size_t i) {
    const struct circuit_branch *b = &k->c->branch[branch];
    return b->first + (k->back[branch] ? b->count - 1 - i : i);
}

/* `7.6 A at 13.2 V`, `2.6 m`: the first figure of a word; NULL: none. */
struct quantity *circuit_look_figure(const struct look *k, struct text word,
                                     const char *unit) {
    struct expression x =
        expression_over(k->v, k->circuit->scope, k->variant, word);
    struct value value = expression_sum(&x);
    bool fits =
        value.type == VALUE_QUANTITY &&
        dim_same(value.quantity->dim, unit_find(unit, strlen(unit))->dim);
    return fits ? value.quantity : NULL;
}

struct quantity *circuit_look_sum(const struct look *k, struct quantity *a,
                                  struct quantity *b) {
    if (a == NULL || b == NULL)
        return a == NULL ? b : a;
    struct quantity *q = quantity_binary(&k->v->maker, QUANTITY_ADD, a, b);
    q->unit = b->nominal > a->nominal ? b->unit : a->unit;
    return q;
}

double circuit_look_most_of(const struct quantity *q) {
    return q == NULL ? -INFINITY : range_ends(q).high;
}

bool circuit_look_post(const struct look *k, size_t point, bool minus) {
    return is_post(k->c, point, minus);
}

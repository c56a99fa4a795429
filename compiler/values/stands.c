/* stands.c - a raised vehicle: the stands carry the axle load, in each variant.
 * H14 of the hazard catalogue. */
#include "base/arena.h"
#include "values/expression.h"
#include "values/range.h"

#include <string.h>

static bool is_lifting(struct text word) {
    return text_is(word, "raised vehicle") || text_is(word, "under") ||
           text_is(word, "stands");
}

static bool is_lifting_mark(const struct mark *m) {
    if (m->kind != MARK_TOUCHES && m->kind != MARK_DOES)
        return false;
    for (size_t k = 0; k < m->list.count; k++)
        if (is_lifting(m->list.tag[k]))
            return true;
    return false;
}

/* The first mark that raises the vehicle, and the variants that are raised. */
static const struct mark *lifting_mark(const struct values *v,
                                       variant_set *raised) {
    const struct guide *g = v->guide;
    const struct mark *first = NULL;
    *raised = 0;
    for (size_t i = 0; i < g->mark_count; i++) {
        if (!is_lifting_mark(g->marks[i]))
            continue;
        first = first == NULL ? g->marks[i] : first;
        *raised |= values_readers(v, g->marks[i]->node);
    }
    return first;
}

static const struct block *preliminary_of(const struct guide *g) {
    for (size_t i = 0; i < g->block_count; i++)
        if (g->blocks[i]->kind->id == KIND_PRELIMINARY &&
            tree_setting(g->blocks[i], "stands") != NULL)
            return g->blocks[i];
    return NULL;
}

/* `2, 3 ton each`, `2, 3 ton the pair`: what they carry together. */
static const struct quantity *
read_stands(struct values *v, const struct block *b, size_t variant) {
    const struct entry *e = tree_setting(b, "stands");
    const struct choice *choice = variant_choose(v, e, variant);
    if (choice == NULL)
        return NULL;
    struct expression x = expression_over(v, b->scope, variant, choice->text);
    struct value count = expression_sum(&x);
    bool comma = count.type != VALUE_BAD && scan_take(&x.scan, ",");
    struct value rating = comma ? expression_sum(&x) : count;
    bool each = scan_take_word(&x.scan, "each");
    bool pair =
        !each &&
        (scan_take_word(&x.scan, "the pair") ||
         scan_take_word(&x.scan, "pair") ||
         (scan_take_word(&x.scan, "the") && scan_take_word(&x.scan, "pair")));
    if (!comma || (!each && !pair) || !scan_end(&x.scan) ||
        !expression_fits(&x, &rating, "kg", "stands") ||
        count.type != VALUE_QUANTITY || !dim_none(count.quantity->dim)) {
        scan_fail(&x.scan, DIAG_SETTING_VALUE, 0, choice->text.len,
                  "say how many and what they carry: 2, 3 ton each (or: 2, 3 "
                  "ton the pair)");
        return NULL;
    }
    if (pair)
        return rating.quantity;
    struct quantity *all = quantity_binary(&v->maker, QUANTITY_MULTIPLY,
                                           count.quantity, rating.quantity);
    all->name = text_of("stands");
    return all;
}

/* The heavier of the axle loads that the vehicle's row gives. */
static const struct quantity *axle_load(struct values *v, size_t variant) {
    const struct variant *of = &v->variant[variant];
    if (of->row == NULL)
        return NULL;
    const struct quantity *front =
        cells_quantity(v, of->vehicle, of->row, "axle load front", variant);
    const struct quantity *rear =
        cells_quantity(v, of->vehicle, of->row, "axle load rear", variant);
    if (front == NULL || rear == NULL)
        return front != NULL ? front : rear;
    return quantity_binary(&v->maker, QUANTITY_MAX, front, rear);
}

void stands_require(struct values *v) {
    variant_set raised;
    const struct mark *mark = lifting_mark(v, &raised);
    if (mark == NULL || v->guide->identity == NULL)
        return;
    const struct block *b = preliminary_of(v->guide);
    for (size_t i = 0; i < v->variant_count; i++) {
        if (((raised & v->applies) >> i & 1) == 0)
            continue;
        const struct quantity *stands = b == NULL ? NULL : read_stands(v, b, i);
        const struct quantity *load = axle_load(v, i);
        bool known = stands != NULL && load != NULL;
        if (b != NULL && stands == NULL)
            continue; /* its message stands at the setting */
        block_require(
            v, (struct requirement){
                   .block = b != NULL ? b : v->guide->identity,
                   .variant = i,
                   .rule = "H14",
                   .what = "axle load against the stands",
                   .left = known ? load : NULL,
                   .right = known ? stands : NULL,
                   .trouble = b == NULL
                                  ? "the vehicle is raised and no stands are "
                                    "stated"
                                  : "the vehicle is raised and its facts give "
                                    "no axle load",
                   .source = "WAC 296-807-17015, the state form of 29 CFR "
                             "1910.244",
                   .cure = b == NULL ? "write stands: 2, 3 ton each, in a "
                                       "preliminary block"
                           : load == NULL
                               ? "add the column axle load rear to the vehicle"
                               : "stands that carry more",
                   .at = b != NULL ? tree_setting(b, "stands")->at : mark->at});
    }
}

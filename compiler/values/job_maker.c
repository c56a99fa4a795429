/* job_maker.c - what a reading is held against, and what a maker says of his
 * bolts, is measured on no vehicle: with the worn disc's own thickness for its
 * limit every disc passes. */
#include "values/job_maker.h"

#include "base/arena.h"
#include "base/diag.h"
#include "values/expression.h"
#include "values/job_set.h"
#include "values/range.h"

static bool is_end(const struct value *limit, const struct quantity *q) {
    return (limit->type == VALUE_LIMIT &&
            (limit->low == q || limit->high == q)) ||
           (limit->type == VALUE_QUANTITY && limit->quantity == q);
}

/* The id of a row that the quantity limits; absent: none has it. */
static struct text limited_by(struct values *v, const struct block *b,
                              const struct quantity *q, size_t variant) {
    for (size_t i = 0; i < b->entry_count; i++) {
        const struct entry *row = &b->entries[i];
        if (row->kind != ENTRY_ROW ||
            (values_of_row(v, b, row) >> variant & 1) == 0)
            continue;
        const struct cell *limit = tree_cell(b, row, "limit");
        if (limit == NULL || limit->text.len == 0)
            continue;
        struct expression x = expression_over(v, b->scope, variant,
                                              variant_cell(v, limit, variant));
        struct value value = expression_value(&x);
        if (is_end(&value, q))
            return tree_cell(b, row, "id")->text;
    }
    return (struct text){NULL, 0};
}

const char *job_maker_use(struct values *v, const struct quantity *q,
                          size_t variant, bool *limit) {
    const struct guide *g = v->guide;
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        struct text name = b->name;
        *limit = b->kind->id == KIND_LIMITS;
        if (*limit)
            name = limited_by(v, b, q, variant);
        else if (b->kind->id != KIND_TORQUE ||
                 block_setting(v, b, "figure", variant)->quantity != q)
            continue;
        if (name.len > 0)
            return arena_printf(v->c->arena,
                                *limit ? "the limit of %.*s"
                                       : "the maker's torque of %.*s",
                                (int)name.len, name.start);
    }
    return NULL;
}

/* Within what the maker allows a torque may be what was applied. */
static bool is_within(const struct quantity *was, const struct quantity *now) {
    struct ends stated = range_ends(was);
    return now->nominal >= stated.low && now->nominal <= stated.high;
}

void job_check_makers(struct values *v) {
    size_t variant = values_first(v);
    for (size_t i = 0; i < v->job_set_count; i++) {
        const struct job_set *s = &v->job_set[i];
        const struct value *now = &v->slot[s->slot].named.by_variant[variant];
        const struct value *was =
            s->was == SIZE_MAX ? NULL
                               : &v->slot[s->was].named.by_variant[variant];
        bool limit = false;
        const char *use = now->type == VALUE_QUANTITY
                              ? job_maker_use(v, now->quantity, variant, &limit)
                              : NULL;
        if (use == NULL ||
            (!limit && was != NULL && was->type == VALUE_QUANTITY &&
             is_within(was->quantity, now->quantity)))
            continue;
        diag_add(v->c->diags, DIAG_JOB_SET, s->at,
                 "'%.*s' is %s, and measured on no vehicle; %sif this sort of "
                 "vehicle has another, give it a variant in the facts",
                 (int)s->name.len, s->name.start, use,
                 limit ? "what was measured stands under found and left; "
                       : "");
        job_silence(v, s);
    }
}

/* limit.c - the limit of a row of `limits` as a band. */
#include "values/limit.h"

#include "values/expression.h"
#include "values/range.h"

#include <math.h>

bool limit_is_single(const struct value *value) {
    return value->type == VALUE_QUANTITY && range_is_single(value->quantity);
}

static struct value value_of(struct values *v, const struct block *b,
                             const struct cell *limit, size_t variant) {
    struct expression x =
        expression_over(v, b->scope, variant, variant_cell(v, limit, variant));
    return expression_value(&x);
}

bool limit_is_answer(struct values *v, const struct block *b,
                     const struct cell *limit, size_t variant, bool *answer) {
    if (limit == NULL || limit->text.len == 0)
        return false;
    struct value value = value_of(v, b, limit, variant);
    *answer = value.truth;
    return value.type == VALUE_TRUTH;
}

bool limit_band(struct values *v, const struct block *b,
                const struct cell *limit, size_t variant,
                struct limit_band *out) {
    if (limit == NULL || limit->text.len == 0)
        return false;
    struct value value = value_of(v, b, limit, variant);
    *out = (struct limit_band){-INFINITY, INFINITY, value.quantity};
    if (value.type == VALUE_LIMIT) {
        out->like = value.low != NULL ? value.low : value.high;
        if (value.low != NULL)
            out->low = range_ends(value.low).high;
        if (value.high != NULL)
            out->high = range_ends(value.high).low;
    } else if (value.type == VALUE_QUANTITY && !limit_is_single(&value)) {
        out->low = range_ends(value.quantity).low;
        out->high = range_ends(value.quantity).high;
    } else {
        return false;
    }
    return true;
}

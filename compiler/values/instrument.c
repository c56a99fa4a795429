/* instrument.c - an instrument can show whether a limit is met.
 *
 * `meter, 0.01 V` behind a limit names the instrument and its resolution; the
 * acceptance band must be wider than that. */
#include "base/arena.h"
#include "values/expression.h"
#include "values/range.h"

#include <string.h>

/* A step on a scale of temperature is a difference. */
static const struct quantity *as_step(struct values *v,
                                      const struct quantity *q) {
    const struct unit *u = figure_unit(q);
    if (!q->dim.point || u == NULL)
        return q;
    const struct unit *step = unit_difference(u);
    struct quantity *size = quantity_exact(
        &v->maker, unit_from_si(u, q->nominal) * u->factor, step->dim, step);
    size->decimals = q->decimals;
    return size;
}

/* The quantity behind the last comma, if it is one of the limit's dimension. */
static const struct quantity *resolution(struct values *v,
                                         const struct block *b,
                                         const struct cell *cell,
                                         size_t variant, struct dim dim) {
    struct text t = cell->text;
    size_t at = t.len;
    while (at > 0 && t.start[at - 1] != ',')
        at--;
    if (at == 0)
        return NULL;
    struct text last = text_part(t, at, t.len);
    struct expression x = expression_over(v, b->scope, variant, last);
    if (!scan_at_number(&x.scan))
        return NULL;
    struct value value = expression_value(&x);
    if (value.type != VALUE_QUANTITY || !dim_same(value.quantity->dim, dim))
        return NULL;
    return as_step(v, value.quantity);
}

/* Width of the band: the limit itself where it has one side; NULL: one side of
 * a scale of temperature has none. */
static const struct quantity *band(struct values *v,
                                   const struct value *limit) {
    if (limit->type == VALUE_LIMIT) {
        const struct quantity *side =
            limit->low != NULL ? limit->low : limit->high;
        return side->dim.point ? NULL : side;
    }
    struct ends e = range_ends(limit->quantity);
    struct dim dim = limit->quantity->dim;
    dim.point = false;
    const struct unit *u = limit->quantity->unit == NULL
                               ? NULL
                               : unit_difference(limit->quantity->unit);
    return quantity_exact(&v->maker, e.high - e.low, dim, u);
}

static void check_row(struct values *v, const struct block *b,
                      const struct entry *row, size_t variant) {
    const struct cell *limit = tree_cell(b, row, "limit");
    const struct cell *instrument = tree_cell(b, row, "instrument");
    if (limit == NULL || instrument == NULL || instrument->text.len == 0 ||
        limit->text.len == 0)
        return;
    struct expression x = expression_over(v, b->scope, variant, limit->text);
    struct value value = expression_value(&x);
    if (value.type != VALUE_LIMIT && value.type != VALUE_QUANTITY)
        return;
    const struct quantity *wide = band(v, &value);
    if (wide == NULL || wide->nominal == 0)
        return;
    const struct quantity *fine =
        resolution(v, b, instrument, variant, wide->dim);
    if (fine == NULL)
        return;
    const struct cell *id = tree_cell(b, row, "id");
    block_require(
        v, (struct requirement){
               .block = b,
               .variant = variant,
               .rule = "instrument",
               .what = arena_printf(v->c->arena,
                                    "resolution of the instrument of %.*s",
                                    id == NULL ? 0 : (int)id->text.len,
                                    id == NULL ? "" : id->text.start),
               .left = fine,
               .right = wide,
               .source = "common practice, no source",
               .cure = "a finer instrument",
               .at = instrument->at});
}

void instrument_require(struct values *v) {
    const struct guide *g = v->guide;
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        for (size_t k = 0; b->kind->id == KIND_LIMITS && k < b->entry_count;
             k++) {
            const struct entry *row = &b->entries[k];
            variant_set s =
                row->kind == ENTRY_ROW ? variant_of_row(v, b, row) : 0;
            for (size_t n = 0; n < v->variant_count; n++)
                if (s >> n & 1)
                    check_row(v, b, row, n);
        }
    }
}

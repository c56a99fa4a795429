/* needs.c - what a shared file is given fits what it says that it needs. */
#include "base/diag.h"
#include "values/model.h"

#include <string.h>

/* A size or a text where `text` is wanted, a number without a unit where
 * `number` is, else a quantity of the unit. */
static bool fits(const struct value *value, struct text wanted,
                 const struct unit *unit) {
    if (value->type == VALUE_BAD)
        return true; /* it has its message */
    if (text_is(wanted, "text"))
        return value->type == VALUE_TEXT || value->type == VALUE_SIZE;
    if (text_is(wanted, "size")) /* 2.5 mm2 is one too */
        return value->type == VALUE_SIZE ||
               (value->type == VALUE_QUANTITY &&
                dim_equal(value->quantity->dim, unit_find("mm2", 3)->dim));
    if (text_is(wanted, "number"))
        return value->type == VALUE_QUANTITY && value->quantity->unit == NULL &&
               dim_none(value->quantity->dim);
    return value->type == VALUE_QUANTITY && unit != NULL &&
           dim_equal(value->quantity->dim, unit->dim);
}

static const char *spoken(struct text wanted, const struct unit *unit,
                          char name[UNIT_TEXT]) {
    if (text_is(wanted, "text"))
        return "a text";
    if (text_is(wanted, "size"))
        return "a wire size";
    if (text_is(wanted, "number"))
        return "a number without a unit";
    return unit_measures(unit, name);
}

static void check_need(struct values *v, const struct block *b,
                       const struct entry *e) {
    struct text wanted = text_trim(e->choices[0].text);
    const struct unit *unit = unit_find(wanted.start, wanted.len);
    if (unit == NULL && !text_is(wanted, "text") && !text_is(wanted, "size") &&
        !text_is(wanted, "number")) {
        diag_add(v->c->diags, DIAG_UNIT_UNKNOWN,
                 place_of(b->scope->src, wanted),
                 "'%.*s'; a need is a unit, `number`, `text` or `size`",
                 (int)wanted.len, wanted.start);
        return;
    }
    struct slot *s = names_find(v, b->scope, e->key);
    if (s == NULL || s->visible->index != b->scope->index)
        return; /* missing: told where the file is included */
    for (size_t i = 0; i < v->variant_count; i++) {
        if ((v->applies >> i & 1) == 0 ||
            fits(evaluate_slot(v, s, i), wanted, unit))
            continue;
        char name[UNIT_TEXT];
        diag_add(v->c->diags, DIAG_DIMENSION, s->named.at,
                 "'%.*s' must be %s here", (int)e->key.len, e->key.start,
                 spoken(wanted, unit, name));
        diag_note(v->c->diags, e->at, "the shared file asks for it here");
        return;
    }
}

void needs_check(struct values *v) {
    const struct guide *g = v->guide;
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        for (size_t k = 0; b->kind->id == KIND_NEEDS && k < b->entry_count; k++)
            if (b->entries[k].kind == ENTRY_SETTING &&
                b->entries[k].choice_count > 0)
                check_need(v, b, &b->entries[k]);
    }
}

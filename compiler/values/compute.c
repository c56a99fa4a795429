/* compute.c - what the blocks that calculate have in common. */
#include "base/arena.h"
#include "base/diag.h"
#include "base/list.h"
#include "values/model.h"
#include "values/range.h"

#include <math.h>
#include <string.h>

const struct value *block_setting(struct values *v, const struct block *b,
                                  const char *name, size_t variant) {
    static const struct value absent = {.type = VALUE_ABSENT};
    struct slot *s = names_setting(v, b, name);
    return s == NULL ? &absent : evaluate_slot(v, s, variant);
}

struct text block_text(struct values *v, const struct block *b,
                       const char *name, size_t variant) {
    const struct value *value = block_setting(v, b, name, variant);
    return value->type == VALUE_TEXT ? value->text : (struct text){NULL, 0};
}

bool block_is_bad(struct values *v, const struct block *b, const char *name,
                  size_t variant) {
    return block_setting(v, b, name, variant)->type == VALUE_BAD;
}

struct span block_place(const struct values *v, const struct block *b,
                        const char *setting) {
    /* Where a job set it, that is the place. */
    const struct slot *s = names_setting(v, b, setting);
    const struct entry *e =
        s != NULL && s->entry != NULL ? s->entry : blocks_entry(v, b, setting);
    return e == NULL ? b->at : e->at;
}

void block_missing(struct values *v, const struct block *b, const char *setting,
                   const char *cure) {
    diag_add(v->c->diags, DIAG_SETTING_MISSING, b->at,
             "%s%s%.*s says no %s; %s", b->kind->name, v->c->single ? "" : " ",
             v->c->single ? 0 : (int)b->name.len, b->name.start, setting, cure);
}

struct quantity *block_table(struct values *v, double nominal,
                             struct ends range, const char *unit,
                             const char *name, const char *source) {
    const struct unit *u = unit_find(unit, strlen(unit));
    struct quantity *q =
        quantity_root(&v->maker, ROOT_TABLE, nominal, range, u->dim, u);
    q->name = text_of(name);
    q->note = text_of(source);
    return q;
}

void block_field(struct values *v, const struct block *b, const char *name,
                 size_t variant, struct value value) {
    struct slot *s = names_field(v, b, name);
    if (s == NULL)
        return;
    value.at = b->at;
    s->named.by_variant[variant] = value;
    s->state[variant] = SLOT_DONE;
}

static bool are_finite(struct ends e) {
    return isfinite(e.low) && isfinite(e.high);
}

/* The ends are only searched for where the bounds around them are not. */
static bool is_finite(const struct quantity *q) {
    return isfinite(q->nominal) &&
           (are_finite(q->bounds->within) || are_finite(range_ends(q)));
}

/* Beyond what its calculation is valid for: a message at the block. */
static bool refuse_infinite(struct values *v, const struct block *b,
                            const char *what, const struct quantity *q) {
    if (q == NULL || is_finite(q))
        return false;
    diag_add(v->c->diags, DIAG_RESULT_NOT_FINITE, b->at, "%s", what);
    return true;
}

void block_quantity(struct values *v, const struct block *b, const char *name,
                    size_t variant, const char *what, struct quantity *q) {
    struct slot *s = names_field(v, b, name);
    if (refuse_infinite(v, b, what, q)) {
        block_field(v, b, name, variant, (struct value){.type = VALUE_BAD});
        return;
    }
    bool own = q->name.len == 0; /* an author's value has a name */
    if (own && s != NULL && s->field->unit != NULL && q->op != QUANTITY_ROOT) {
        const struct unit *u =
            unit_find(s->field->unit, strlen(s->field->unit));
        if (u != NULL && dim_same(u->dim, q->dim))
            q->unit = u;
    }
    if (own && s != NULL)
        q->name = s->named.name;
    block_field(v, b, name, variant,
                (struct value){.type = VALUE_QUANTITY, .quantity = q});
    block_working(v, b, variant, what, q);
}

void block_working(struct values *v, const struct block *b, size_t variant,
                   const char *what, const struct quantity *q) {
    struct block_slots *own = &v->of_block[b->index];
    own->working = list_grown(v->c->arena, own->working, own->working_count,
                              &own->working_room, sizeof *own->working);
    own->working[own->working_count++] = (struct working_row){variant, what, q};
}

static size_t add_assumption(struct values *v, struct assumption one) {
    v->assumption = list_grown(v->c->arena, v->assumption, v->assumption_count,
                               &v->assumption_room, sizeof *v->assumption);
    v->assumption[v->assumption_count] = one;
    return v->assumption_count++;
}

void block_assume(struct values *v, const struct block *b, size_t variant,
                  const char *what, const char *value, const char *source) {
    variant_set bit = (variant_set)1 << variant;
    struct block_slots *own = &v->of_block[b->index];
    for (size_t i = 0; i < own->assumed_count; i++) {
        struct assumption *a = &v->assumption[own->assumed[i]];
        if (strcmp(a->what, what) != 0 || strcmp(a->value, value) != 0)
            continue;
        a->variants |= bit;
        return;
    }
    own->assumed = list_grown(v->c->arena, own->assumed, own->assumed_count,
                              &own->assumed_room, sizeof *own->assumed);
    own->assumed[own->assumed_count++] =
        add_assumption(v, (struct assumption){b, what, value, source, bit});
}

const struct quantity *block_assumed(struct values *v, const struct block *b,
                                     size_t variant, const char *what,
                                     double nominal, struct ends range,
                                     const char *unit, const char *source) {
    const struct unit *u = unit_find(unit, strlen(unit));
    struct quantity *q =
        quantity_root(&v->maker, ROOT_ASSUMPTION, nominal, range, u->dim, u);
    q->name = text_of(what);
    q->note = text_of(source);
    q->at = b->at;
    if (dim_equal(u->dim, unit_find("ohm", 3)->dim) ||
        dim_equal(u->dim, unit_find("s", 1)->dim))
        q->significant = 2; /* nobody measured it */
    block_assume(v, b, variant, what, figure_of(v->c->arena, q, FIGURE_RANGE),
                 source);
    return q;
}

void block_require(struct values *v, struct requirement r) {
    if (refuse_infinite(v, r.block, r.what, r.left) ||
        refuse_infinite(v, r.block, r.what, r.right))
        return;
    v->requirement =
        list_grown(v->c->arena, v->requirement, v->requirement_count,
                   &v->requirement_room, sizeof *v->requirement);
    v->requirement[v->requirement_count++] = r;
}

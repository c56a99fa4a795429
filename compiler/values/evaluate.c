/* evaluate.c - values_evaluate: every name of a guide, for each variant.
 *
 * Names are evaluated on demand, so their order in the source does not matter;
 * a name that needs itself is found by its state. */
#include "base/arena.h"
#include "base/diag.h"
#include "values/circuit_block.h"
#include "values/circuit_given.h"
#include "values/circuit_names.h"
#include "values/circuit_require.h"
#include "values/circuit_sheet.h"
#include "values/expression.h"
#include "values/job_set.h"
#include "values/self_limit.h"
#include "values/sense.h"

bool evaluate_deeper(struct values *v) {
    if (v->depth == DEPTH_MAX)
        return false;
    v->depth++;
    return true;
}

void evaluate_higher(struct values *v) {
    v->depth--;
}

void evaluate_block(struct values *v, const struct block *b, size_t variant) {
    enum slot_state *state = &v->of_block[b->index].state[variant];
    if (*state == SLOT_DONE)
        return;
    if (*state == SLOT_AT_WORK) {
        diag_add(v->c->diags, DIAG_NAME_CYCLE, b->at, "'%.*s'",
                 (int)b->name.len, b->name.start);
        return;
    }
    *state = SLOT_AT_WORK;
    bool computed = false;
    if (b->kind->id == KIND_WIRE)
        computed = wire_block_compute(v, b, variant);
    else if (b->kind->id == KIND_FUSE)
        computed = fuse_block_compute(v, b, variant);
    else if (b->kind->id == KIND_TORQUE)
        computed = torque_block_compute(v, b, variant);
    v->of_block[b->index].failed[variant] = !computed;
    *state = SLOT_DONE;
}

/* A setting that hides behind a field of its name has a blank in its own. */
static struct text shown_name(const struct slot *s) {
    size_t len = 0;
    while (len < s->named.name.len && s->named.name.start[len] != ' ')
        len++;
    return text_part(s->named.name, 0, len);
}

/* The quantity behind a name keeps the name and the source in quotes, for the
 * annex and `why`. */
static void label(const struct values *v, const struct slot *s,
                  struct value *value) {
    if (value->type != VALUE_QUANTITY)
        return;
    struct quantity *q = value->quantity;
    if (q->name.len == 0)
        q->name = shown_name(s);
    if (q->note.len == 0 && s->entry != NULL)
        q->note = s->entry->note;
    struct quantity *second = value->with;
    if (second != NULL && second->name.len == 0)
        second->name =
            text_of(arena_printf(v->c->arena, "%.*s %s", (int)q->name.len,
                                 q->name.start, value->joint));
}

static struct value entry_value(struct values *v, struct slot *s,
                                size_t variant) {
    static const struct value bad = {.type = VALUE_BAD};
    const struct choice *choice = variant_choose(v, s->entry, variant);
    if (choice == NULL)
        return bad;
    struct value value;
    if (s->setting != NULL) {
        value = setting_value(v, s, choice, variant);
    } else {
        struct expression x =
            expression_over(v, s->evaluated, variant, choice->text);
        x.named = true;
        value = expression_value(&x);
    }
    label(v, s, &value);
    return value;
}

static const struct value *evaluate_here(struct values *v, struct slot *s,
                                         size_t variant) {
    static const struct value bad = {.type = VALUE_BAD};
    struct value *value = &s->named.by_variant[variant];
    s->state[variant] = SLOT_AT_WORK;
    if (s->output != NULL) {
        *value = circuit_block_value(v, s, variant, NULL);
    } else if (s->field != NULL) {
        evaluate_block(v, s->named.block, variant);
        if (s->state[variant] == SLOT_AT_WORK)
            fuse_block_faults(v, s->named.block, variant);
        /* Of a block that failed, BAD: its message stands at the block. */
        bool failed = v->of_block[s->named.block->index].failed[variant];
        if (s->state[variant] == SLOT_AT_WORK)
            *value = (struct value){.type = failed ? VALUE_BAD : VALUE_ABSENT};
    } else if (s->entry == NULL) {
        *value = s->setting == NULL ? (struct value){.type = VALUE_ABSENT}
                                    : circuit_given(v, s->named.block,
                                                    s->setting->name, variant);
    } else if (!evaluate_deeper(v)) {
        diag_add(v->c->diags, DIAG_EXPRESSION_DEEP, s->named.at,
                 "a chain of more than %d names", DEPTH_MAX / 2);
        *value = bad;
    } else {
        *value = entry_value(v, s, variant);
        evaluate_higher(v);
    }
    s->state[variant] = SLOT_DONE;
    return value;
}

const struct value *evaluate_slot(struct values *v, struct slot *s,
                                  size_t variant) {
    struct value *value = &s->named.by_variant[variant];
    if (s->state[variant] == SLOT_DONE)
        return value;
    if (s->state[variant] == SLOT_UNTOUCHED)
        return evaluate_here(v, s, variant);
    struct text name = shown_name(s);
    diag_add(v->c->diags, DIAG_NAME_CYCLE, s->named.at, "'%.*s'", (int)name.len,
             name.start);
    *value = (struct value){.type = VALUE_BAD};
    return value;
}

void values_demand(struct values *v, size_t index) {
    for (size_t i = 0; i < v->variant_count; i++)
        if (v->applies >> i & 1 && v->slot[index].state[i] == SLOT_UNTOUCHED)
            evaluate_slot(v, &v->slot[index], i);
}

static bool applies(const struct values *v, size_t variant) {
    return (v->applies >> variant & 1) != 0;
}

/* Circuits are solved, but their results wait until one is asked for. */
static void evaluate_names(struct values *v) {
    for (size_t i = 0; i < v->slot_count; i++)
        for (size_t variant = 0; variant < v->variant_count; variant++) {
            if (!applies(v, variant))
                continue;
            if (v->slot[i].output == NULL)
                evaluate_slot(v, &v->slot[i], variant);
            else
                circuit_block_open(v, v->slot[i].named.block, variant);
        }
}

void values_demand_usual(struct values *v) {
    for (size_t i = 0; i < v->slot_count; i++)
        if (circuit_names_is_usual(&v->slot[i]))
            values_demand(v, i);
}

/* The sign between two sizes is settled here: they are no quantities. */
static void compare_sizes(struct values *v, struct requirement *r,
                          const struct value *left, const struct value *right) {
    int order = size_compare(left->size, right->size);
    r->left = quantity_number(&v->maker, order);
    r->right = quantity_number(&v->maker, 0);
    r->sizes = arena_printf(v->c->arena, "%s against %s", left->size->label,
                            right->size->label);
}

void evaluate_check(struct values *v, const struct block *b,
                    const struct entry *e, size_t variant) {
    const struct choice *choice = variant_choose(v, e, variant);
    if (choice == NULL)
        return;
    struct expression x = expression_over(v, b->scope, variant, choice->text);
    struct value left, right;
    struct text written = text_squeezed(v->c->arena, choice->text);
    struct requirement r = {
        .block = b,
        .variant = variant,
        .what = text_cstr(v->c->arena, written),
        .source = e->note.len == 0 ? NULL : text_cstr(v->c->arena, e->note),
        .at = place_of(b->scope->src, choice->text)};
    if (!expression_comparison(&x, &left, &right, &r.relation))
        return;
    if (left.type == VALUE_SIZE) {
        compare_sizes(v, &r, &left, &right);
    } else {
        r.left = left.quantity;
        r.right = right.quantity;
    }
    block_require(v, r);
}

static void collect_checks(struct values *v) {
    const struct guide *g = v->guide;
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (b->kind->id != KIND_CHECK)
            continue;
        variant_set s = v->applies & values_readers(v, b->node);
        for (size_t k = 0; k < b->entry_count; k++)
            for (size_t variant = 0; variant < v->variant_count; variant++)
                if (b->entries[k].kind == ENTRY_REQUIREMENT &&
                    (s >> variant & 1) != 0)
                    evaluate_check(v, b, &b->entries[k], variant);
    }
}

static enum unit_system read_units(const struct guide *g) {
    const struct entry *e =
        g->identity == NULL ? NULL : tree_setting(g->identity, "units");
    if (e != NULL && e->choice_count > 0 &&
        text_is(text_trim(e->choices[0].text), "SI"))
        return UNIT_SI;
    return UNIT_CUSTOMARY;
}

struct values *evaluate_open(struct compile *c, const struct guide *g) {
    struct values *v = arena_alloc(c->arena, 1, sizeof *v);
    v->c = c;
    v->guide = g;
    v->maker.arena = c->arena;
    v->told = arena_alloc(c->arena, 1, sizeof *v->told);
    v->units = read_units(g);
    variant_collect(v);
    blocks_collect(v);
    names_collect(v);
    job_set_all(v);
    return v;
}

struct values *values_evaluate(struct compile *c, const struct guide *g) {
    struct values *v = evaluate_open(c, g);
    job_check_vehicle(v);
    job_check_sets(v);
    job_check_makers(v);
    evaluate_names(v);
    if (!c->single)
        protection_require(v);
    self_limit_check(v);
    sag_require(v);
    circuit_given_check(v);
    sense_check(v);
    circuit_require(v);
    circuit_sheet_fill(v);
    needs_check(v);
    collect_checks(v);
    marks_check(v);
    cells_check(v);
    instrument_require(v);
    if (!c->single)
        stands_require(v);
    job_check_readings(v);
    return v;
}

/* circuit_block.c - results of a circuit with their ends. */
#include "values/circuit_block.h"

#include "base/arena.h"
#include "base/diag.h"
#include "base/list.h"
#include "calc/rounding.h"
#include "source/circuit_tree.h"
#include "values/circuit_crank.h"
#include "values/circuit_ends.h"
#include "values/circuit_fault.h"
#include "values/circuit_series.h"
#include "values/circuit_solve.h"
#include "values/circuit_task.h"
#include "values/circuit_trace.h"
#include "values/circuit_twin.h"
#include "values/circuit_unfed.h"
#include "values/electrical.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

static int by_serial(const void *left, const void *right) {
    const struct corner *a = left, *b = right;
    return (a->root->serial > b->root->serial) -
           (a->root->serial < b->root->serial);
}

static void collect_roots(struct task *t) {
    struct arena *a = t->w->v->c->arena;
    size_t room = 0;
    for (size_t i = 0; i < t->w->part_count; i++) {
        const struct quantity *q[PART_FIGURES], *const *root;
        if (t->w->in_net[i] == SIZE_MAX)
            continue;
        size_t n = circuit_solve_figures(t->w, i, q);
        for (size_t k = 0; k < n; k++) {
            size_t roots = range_roots(a, q[k], &root);
            for (size_t r = 0; r < roots; r++) {
                if (quantity_is_exact(root[r]))
                    continue;
                t->corner = list_grown(a, t->corner, t->count, &room,
                                       sizeof *t->corner);
                t->corner[t->count++] =
                    (struct corner){root[r], root[r]->nominal};
            }
        }
    }
    if (t->count > 1)
        qsort(t->corner, t->count, sizeof *t->corner, by_serial);
    size_t kept = 0;
    for (size_t i = 0; i < t->count; i++)
        if (kept == 0 || t->corner[i].root != t->corner[kept - 1].root)
            t->corner[kept++] = t->corner[i];
    t->count = kept;
}

/* Every root with width below the figures, once, in order; kept for the next
 * result of the state. */
static void find_roots(struct task *t) {
    struct circuit_memo *m = t->w->kept;
    if (m == NULL) {
        collect_roots(t);
        t->w->root = t->corner;
        t->w->figures = circuit_solve_index(t->w, t->corner, t->count);
        return;
    }
    if (m->root == NULL) {
        collect_roots(t);
        m->root_count = t->count;
        m->root = arena_alloc(t->w->v->c->arena, t->count + 1, sizeof *m->root);
        if (t->count > 0)
            memcpy(m->root, t->corner, t->count * sizeof *m->root);
        m->figures = circuit_solve_index(t->w, m->root, t->count);
    }
    t->w->root = m->root;
    t->w->figures = m->figures;
    t->count = m->root_count;
    t->corner = m->root;
    for (size_t r = 0; r < t->count; r++)
        t->corner[r].value = t->corner[r].root->nominal;
}

/* An earlier variant in which the circuit is the same; NULL: none is. */
static struct circuit_work *twin_of(const struct block_slots *own,
                                    const struct circuit_work *w) {
    for (size_t k = 0; k < w->v->variant_count; k++) {
        struct circuit_work *one = own->circuit[k];
        if (one != NULL && one != w && one->twin == NULL &&
            own->state[k] == SLOT_DONE && circuit_twin_is(one, w))
            return one;
    }
    return NULL;
}

struct circuit_work *circuit_block_open(struct values *v, const struct block *b,
                                        size_t variant) {
    struct block_slots *own = &v->of_block[b->index];
    if (own->state[variant] == SLOT_UNTOUCHED) {
        own->state[variant] = SLOT_AT_WORK;
        own->circuit[variant] = circuit_solve_open(v, b, variant);
        if (own->circuit[variant] != NULL)
            for (size_t s = 0; s < b->circuit->state_count; s++)
                if (!circuit_solve_state(own->circuit[variant], s, NULL)) {
                    own->circuit[variant] = NULL;
                    break;
                }
        if (own->circuit[variant] != NULL)
            own->circuit[variant]->twin = twin_of(own, own->circuit[variant]);
        own->state[variant] = SLOT_DONE;
    } else if (own->state[variant] == SLOT_AT_WORK) {
        diag_add(v->c->diags, DIAG_NAME_CYCLE, b->at, "'%.*s'",
                 (int)b->name.len, b->name.start);
        return NULL;
    }
    return own->circuit[variant];
}

/* The element of the name that is there in this variant; for the loop the
 * first load that is; for a sag the supply. SIZE_MAX: none. */
static size_t part_of(const struct circuit_work *w,
                      const struct circuit_output *o) {
    if (o->result == RESULT_SAG)
        return w->c->element_count + o->supply;
    for (size_t i = 0; i < w->c->element_count; i++) {
        bool here = w->part[i].law != LAWS;
        if (o->result == RESULT_LOOP) {
            if (here && w->c->element[i].part == CIRCUIT_LOAD &&
                !circuit_part_dropping(&w->c->element[i]))
                return i;
        } else if (here && text_equal(w->c->element[i].id,
                                      w->c->element[o->index].id)) {
            return i;
        }
    }
    return SIZE_MAX;
}

struct value circuit_block_value(struct values *v, const struct slot *s,
                                 size_t variant, const struct quantity *at) {
    return circuit_block_result(v, s->named.block, s->output, s->named.name,
                                variant, at);
}

/* Into a short from a point to whichever minus takes most. */
static struct value fault(struct values *v, const struct block *b,
                          size_t variant, const struct circuit_output *o,
                          struct text name) {
    double ampere[3] = {0};
    struct circuit_work *w = circuit_block_open(v, b, variant);
    if (w == NULL)
        return (struct value){.type = VALUE_BAD};
    if (w->node[o->index] == SIZE_MAX)
        return (struct value){.type = VALUE_ABSENT};
    circuit_solve_all_on(w);
    struct circuit_fault *nominal = circuit_fault_open(w, FAULT_NOMINAL, NULL);
    struct circuit_fault *most = circuit_fault_most(w);
    if (most == NULL || nominal == NULL)
        return (struct value){.type = VALUE_BAD};
    ampere[FAULT_NOMINAL] = circuit_fault_at(nominal, w->node[o->index]);
    ampere[FAULT_MOST] = circuit_fault_at(most, w->node[o->index]);
    const struct circuit_fault_ways *least = circuit_fault_least(w);
    if (least == NULL)
        return (struct value){.type = VALUE_BAD};
    ampere[FAULT_LEAST] = ampere[FAULT_NOMINAL];
    for (size_t i = 0; i < least->count; i++) {
        double one = circuit_fault_at(least->way[i], w->node[o->index]);
        if (one > 0)
            ampere[FAULT_LEAST] = fmin(ampere[FAULT_LEAST], one);
    }
    struct quantity *q = electrical_fault(block_table(
        v, ampere[FAULT_NOMINAL],
        (struct ends){fmin(ampere[FAULT_LEAST], ampere[FAULT_MOST]),
                      fmax(ampere[FAULT_NOMINAL], ampere[FAULT_MOST])},
        "A", "", "open voltage over the resistance that feeds the short"));
    q->name = name;
    return (struct value){.type = VALUE_QUANTITY, .quantity = q, .at = b->at};
}

/* By the high end of its heat: a joint that may be bad is where to look. Loads,
 * coils and supplies are meant to get warm. */
static struct value hottest(struct values *v, const struct block *b,
                            size_t variant, size_t state,
                            const struct quantity *at) {
    const struct circuit *c = b->circuit;
    struct text name = text_of("nothing");
    double most = 0;
    for (size_t i = 0; i < c->element_count; i++) {
        const struct circuit_output heat = {
            .result = RESULT_HEAT,
            .state = state,
            .index = i,
            .field = {"heat", "W", "given off by it"}};
        bool first = c->element[i].part != CIRCUIT_LOAD &&
                     c->element[i].part != CIRCUIT_COIL;
        for (size_t k = 0; k < i; k++)
            first = first && !text_equal(c->element[k].id, c->element[i].id);
        struct value value =
            first ? circuit_block_result(v, b, &heat, c->element[i].id, variant,
                                         at)
                  : (struct value){.type = VALUE_ABSENT};
        if (value.type == VALUE_BAD)
            return value;
        if (value.type != VALUE_QUANTITY ||
            !(range_ends(value.quantity).high > most))
            continue;
        most = range_ends(value.quantity).high;
        name = c->element[i].id;
    }
    return (struct value){
        .type = VALUE_TEXT, .text = name, .decision = true, .at = b->at};
}

double circuit_block_settled(double x) {
    return isfinite(x) ? round_digits(x, 8, 9) : x;
}

/* Figures by node and by root; those of the next task take their place. */
static void make_room(struct task *t) {
    struct circuit_work *w = t->w;
    size_t count = 2 * (w->node_count + t->count);
    if (count > w->scratch_count) {
        w->scratch = arena_alloc(w->v->c->arena, count, sizeof *w->scratch);
        w->scratch_count = count;
    }
    t->weight = w->scratch;
    t->by = t->weight + w->node_count;
    t->slope = t->by + w->node_count;
    t->first = t->slope + t->count;
}

/* A loss is measured from the supply that is asked for, or from all that are in
 * series where that is one of those that feed the load. */
static void find_string(struct task *t) {
    struct circuit_work *w = t->w;
    size_t own = w->c->element_count + t->output->supply;
    t->string_count = circuit_trace_feeding(w, t->part, &t->string);
    for (size_t i = 0; i < t->string_count; i++)
        if (t->string[i] == own)
            return;
    t->string[0] = own;
    t->string_count = 1;
}

/* Nominal figure and ends; false after a message. */
static bool find_ends(struct task *t, const struct quantity *at,
                      struct circuit_found *out) {
    if (!circuit_solve_state(t->w, t->output->state, at))
        return false;
    find_roots(t);
    make_room(t);
    if (circuit_task_is_loss(t))
        find_string(t);
    if (!circuit_ends_open(t, at))
        return false;
    const char *limits = circuit_trace_limits(t->w, NULL);
    double nominal = circuit_ends_now(t);
    circuit_task_slopes(t);
    if (t->output->held != NULL)
        circuit_task_hold(t);
    memcpy(t->first, t->slope, t->count * sizeof *t->first);
    *out = (struct circuit_found){
        true,   t->output->supply, circuit_block_settled(nominal),
        {0, 0}, {NULL, NULL},      limits};
    out->ends.low = circuit_block_settled(
        circuit_ends_find(t, nominal, false, &out->moved[0]));
    out->ends.high = circuit_block_settled(
        circuit_ends_find(t, nominal, true, &out->moved[1]));
    return true;
}

/* Where the result is kept; NULL: nowhere. The current of a part is looked for
 * where that of all in series with it is. */
static struct circuit_found *found_at(struct task *t,
                                      const struct quantity *at) {
    struct circuit_work *w = t->w;
    struct circuit_memo *m = &w->memo[t->output->state];
    size_t each = w->part_count + w->c->point_count;
    if (at != NULL || t->output->held != NULL || !m->known)
        return NULL;
    if (t->output->result == RESULT_CURRENT)
        t->part = circuit_series_part(w, m, t->part);
    if (m->found == NULL)
        m->found = arena_alloc(w->v->c->arena, (RESULT_SAG + 1) * each,
                               sizeof *m->found);
    return m->found + (size_t)t->output->result * each +
           (t->output->result == RESULT_POINT ? t->output->index : t->part);
}

/* The same, once for all variants that are alike. */
static bool find_once(struct task *t, const struct quantity *at,
                      struct circuit_found *out) {
    if (t->w->twin != NULL && (at == NULL || quantity_is_exact(at)))
        t->w = t->w->twin;
    struct circuit_found *place = found_at(t, at);
    if (place != NULL && place->known && place->supply == t->output->supply) {
        *out = *place;
        return true;
    }
    if (!find_ends(t, at, out))
        return false;
    if (place != NULL)
        *place = *out;
    return true;
}

/* Of a wire that an engine is cranked through beside what lasts: as its check
 * takes it. */
static struct value heated(const struct task *t, struct text name) {
    struct quantity *q =
        circuit_crank_temperature(t->w, t->part, t->output->state);
    if (q == NULL)
        return (struct value){.type = VALUE_BAD};
    q->unit = unit_find(t->output->field.unit, strlen(t->output->field.unit));
    q->name = name;
    return (struct value){
        .type = VALUE_QUANTITY, .quantity = q, .at = t->w->b->at};
}

struct value circuit_block_result(struct values *v, const struct block *b,
                                  const struct circuit_output *o,
                                  struct text name, size_t variant,
                                  const struct quantity *at) {
    const struct value bad = {.type = VALUE_BAD};
    const struct value absent = {.type = VALUE_ABSENT};
    if (o->result == RESULT_FAULT)
        return fault(v, b, variant, o, name);
    if (o->result == RESULT_HOTTEST)
        return hottest(v, b, variant, o->state, at);
    struct task t = {.w = circuit_block_open(v, b, variant), .output = o};
    if (t.w == NULL)
        return bad;
    if (o->result == RESULT_POINT ? t.w->node[o->index] == SIZE_MAX
                                  : (t.part = part_of(t.w, o)) == SIZE_MAX)
        return absent;
    if (o->result == RESULT_TEMPERATURE && t.w->part[t.part].law != LAW_WIRE)
        return absent;
    if (o->result == RESULT_TEMPERATURE && at == NULL &&
        circuit_solve_state(t.w, o->state, NULL) && t.w->start[t.part] > 0)
        return heated(&t, name);
    struct circuit_found found;
    if (!find_once(&t, at, &found))
        return bad;
    if (!isfinite(found.ends.low) || !isfinite(found.ends.high)) {
        circuit_unfed_tell(t.w, name);
        return bad;
    }
    static const char source[] =
        "nodal solution over the ranges of all its parts";
    struct quantity *q =
        block_table(v, found.nominal, found.ends, o->field.unit, "",
                    found.limits == NULL ? source
                                         : arena_printf(v->c->arena, "%s, %s",
                                                        source, found.limits));
    q->name = name;
    memcpy(q->moved, found.moved, sizeof q->moved);
    return (struct value){.type = VALUE_QUANTITY, .quantity = q, .at = b->at};
}

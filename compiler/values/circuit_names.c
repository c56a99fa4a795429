/* circuit_names.c - the names of what a circuit computes. */
#include "values/circuit_names.h"

#include "base/arena.h"
#include "source/circuit_tree.h"
#include "values/circuit_block.h"

static void add_name(struct values *v, const struct block *b,
                     struct slot *(*add)(struct values *),
                     struct circuit_output output, struct text id,
                     bool with_state) {
    struct arena *a = v->c->arena;
    struct circuit_output *own = arena_alloc(a, 1, sizeof *own);
    *own = output;
    own->again = with_state && output.state == 0;
    struct buf name = buf_in(a);
    buf_text(&name, b->name);
    if (with_state) {
        buf_puts(&name, ".");
        buf_text(&name, b->circuit->state[output.state].id);
    }
    if (id.len > 0) {
        buf_puts(&name, ".");
        buf_text(&name, id);
    }
    buf_printf(&name, ".%s", own->field.name);
    struct slot *s = add(v);
    s->field = &own->field;
    s->output = own;
    s->visible = s->evaluated = b->scope;
    s->named.name = buf_as_text(&name);
    s->named.block = b;
    s->named.computed = true;
    s->named.at = b->at;
    for (size_t i = 0; i < v->variant_count; i++)
        s->named.by_variant[i].type = VALUE_ABSENT;
}

static void add_element(struct values *v, const struct block *b,
                        struct slot *(*add)(struct values *), size_t state,
                        size_t i, bool with_state) {
    static const struct field of[] = {
        {"voltage", "V", "across it"},
        {"drop", "V", "lost in it"},
        {"current", "A", "through it"},
        {"heat", "W", "given off by it"},
        {"temperature", "degC", "of its conductor"}};
    const struct circuit_element *e = &b->circuit->element[i];
    for (size_t k = 0; k < i; k++) /* another variant has the same name */
        if (text_equal(b->circuit->element[k].id, e->id))
            return;
    for (size_t f = 0; f < 5; f++)
        add_name(
            v, b, add,
            (struct circuit_output){(enum circuit_result)(RESULT_VOLTAGE + f),
                                    state, i, false, of[f], 0, NULL},
            e->id, with_state);
}

static void add_state(struct values *v, const struct block *b,
                      struct slot *(*add)(struct values *), size_t state,
                      bool with_state) {
    const struct circuit *c = b->circuit;
    const struct field volt = {"voltage", "V", "against minus"};
    const struct field drop = {"drop", "V", "supply less load"};
    for (size_t i = 0; i < c->point_count; i++)
        add_name(v, b, add,
                 (struct circuit_output){RESULT_POINT, state, i, false, volt, 0,
                                         NULL},
                 c->point[i].id, with_state);
    for (size_t i = 0; i < c->element_count; i++)
        add_element(v, b, add, state, i, with_state);
    add_name(
        v, b, add,
        (struct circuit_output){RESULT_LOOP, state, 0, false, drop, 0, NULL},
        text_of("loop"), with_state);
    const struct field short_circuit = {"fault", "A", "into a short there"};
    for (size_t i = 0; i < c->point_count && !with_state; i++)
        add_name(v, b, add,
                 (struct circuit_output){RESULT_FAULT, state, i, false,
                                         short_circuit, 0, NULL},
                 c->point[i].id, false);
    const struct field hottest = {"hottest", NULL, "part that gets warmest"};
    add_name(v, b, add,
             (struct circuit_output){RESULT_HOTTEST, state, 0, false, hottest,
                                     0, false},
             (struct text){NULL, 0}, with_state);
}

void circuit_names_add(struct values *v, const struct block *b,
                       struct slot *(*add)(struct values *)) {
    const struct circuit *c = b->circuit;
    if (c == NULL || c->bad)
        return;
    add_state(v, b, add, 0, false);
    for (size_t i = 0; i < c->state_count; i++)
        if (c->state[i].name.len > 0)
            add_state(v, b, add, i, true);
}

bool circuit_names_is_usual(const struct slot *s) {
    const struct circuit_output *o = s->output;
    return o == NULL || (!o->again && (o->result == RESULT_POINT ||
                                       o->result == RESULT_LOOP));
}

/* wire_total.c - the wire that a guide's circuits and runs need. */
#include "values/wire_total.h"

#include "base/arena.h"
#include "source/circuit_tree.h"
#include "source/list.h"
#include "values/circuit_part.h"
#include "values/circuit_solve.h"
#include "values/model.h"
#include "values/range.h"

struct totals {
    struct arena *arena;
    struct wire_total *list;
    size_t count, room;
};

static void add(struct totals *t, const struct wire_size *size,
                const struct text *colour, double length) {
    static const struct text none[2] = {{NULL, 0}, {NULL, 0}};
    if (colour == NULL)
        colour = none;
    for (size_t i = 0; i < t->count; i++) {
        struct wire_total *w = &t->list[i];
        if (w->size != size || !text_equal(w->colour[0], colour[0]) ||
            !text_equal(w->colour[1], colour[1]))
            continue;
        w->length += length;
        return;
    }
    t->list =
        list_grown(t->arena, t->list, t->count, &t->room, sizeof *t->list);
    t->list[t->count++] =
        (struct wire_total){size, {colour[0], colour[1]}, length};
}

/* A wire that a circuit as found has by that name is in the vehicle already. */
static bool is_there(const struct guide *g, struct text name) {
    for (size_t i = 0; i < g->block_count; i++) {
        const struct circuit *c = g->blocks[i]->circuit;
        size_t count =
            c == NULL || !circuit_as_found(g->blocks[i]) ? 0 : c->element_count;
        for (size_t k = 0; k < count; k++)
            if (c->element[k].part == CIRCUIT_WIRE &&
                text_equal(c->element[k].name, name))
                return true;
    }
    return false;
}

/* Marks the runs that the elements name. */
static void add_circuit(const struct values *v, const struct circuit_work *w,
                        struct totals *t, bool *named) {
    for (size_t i = 0; i < w->c->element_count; i++) {
        const struct circuit_piece *p = &w->part[i];
        const struct circuit_element *e = p->element;
        if (p->law != LAW_WIRE || p->run == NULL || is_there(v->guide, e->name))
            continue;
        add(t, p->run->ampacity.use.size, e->colour,
            range_ends(p->figure[0]).high);
        const struct block *run =
            values_block(v, w->b->scope, e->word[0], "wire");
        if (run != NULL)
            named[run->index] = true;
    }
}

static void add_run(const struct values *v, const struct block *b,
                    size_t variant, struct totals *t) {
    const struct slot *size = names_field(v, b, "size");
    const struct slot *loop = names_field(v, b, "loop");
    if (size == NULL || loop == NULL)
        return;
    const struct value *s = &size->named.by_variant[variant];
    const struct value *l = &loop->named.by_variant[variant];
    if (s->type == VALUE_SIZE && l->type == VALUE_QUANTITY)
        add(t, s->size, NULL, range_ends(l->quantity).high);
}

size_t wire_totals(const struct values *v, struct arena *a, size_t variant,
                   const struct wire_total **list) {
    const struct guide *g = v->guide;
    struct totals t = {.arena = a};
    bool *named = arena_alloc(a, g->block_count + 1, sizeof *named);
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        const struct circuit_work *w = b->circuit == NULL || circuit_as_found(b)
                                           ? NULL
                                           : v->of_block[i].circuit[variant];
        if (w != NULL)
            add_circuit(v, w, &t, named);
    }
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (b->kind->id == KIND_WIRE && b->name.len > 0 && !named[i])
            add_run(v, b, variant, &t);
    }
    *list = t.list;
    return t.count;
}

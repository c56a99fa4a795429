/* wire_total.c - the wire that a guide's circuits and runs need. */
#include "values/wire_total.h"

#include "base/arena.h"
#include "base/list.h"
#include "source/circuit_tree.h"
#include "values/circuit_part.h"
#include "values/circuit_solve.h"
#include "values/model.h"
#include "values/range.h"

#include <math.h>

struct totals {
    struct arena *arena;
    size_t variant, variants; /* the one at hand, and how many there are */
    struct wire_total *list;
    size_t count, room;
    struct wire_ends *ends;
    size_t ends_count, ends_room;
};

static void add_ends(struct totals *t, const struct wire_size *size,
                     size_t more) {
    size_t i = 0;
    while (i < t->ends_count && t->ends[i].size != size)
        i++;
    if (i == t->ends_count) {
        t->ends = list_grown(t->arena, t->ends, t->ends_count, &t->ends_room,
                             sizeof *t->ends);
        t->ends[t->ends_count++] = (struct wire_ends){
            size, arena_alloc(t->arena, t->variants, sizeof(size_t))};
    }
    t->ends[i].count[t->variant] += more;
}

static void add(struct totals *t, const struct wire_size *size,
                const struct text colour[2], double length) {
    size_t i = 0;
    while (i < t->count && (t->list[i].size != size ||
                            !text_equal(t->list[i].colour[0], colour[0]) ||
                            !text_equal(t->list[i].colour[1], colour[1])))
        i++;
    if (i == t->count) {
        t->list =
            list_grown(t->arena, t->list, t->count, &t->room, sizeof *t->list);
        t->list[t->count++] = (struct wire_total){
            size,
            {colour[0], colour[1]},
            arena_alloc(t->arena, t->variants, sizeof(double))};
    }
    t->list[i].length[t->variant] += length;
}

static bool same_length(const struct quantity *a, const struct quantity *b) {
    return fabs(a->nominal - b->nominal) <= 1e-6 * fabs(a->nominal);
}

/* The same wire by name, size, colour and length. */
static bool same_wire(const struct circuit_piece *a,
                      const struct circuit_piece *b) {
    const struct text *p = a->element->colour, *q = b->element->colour;
    return text_equal(a->element->name, b->element->name) &&
           a->run->ampacity.use.size == b->run->ampacity.use.size &&
           text_equal(p[0], q[0]) && text_equal(p[1], q[1]) &&
           same_length(a->figure[0], b->figure[0]);
}

/* A wire that a circuit as found has is in the vehicle already; another one
 * under its name is not. */
static bool is_there(const struct values *v, const struct totals *t,
                     const struct circuit_piece *wire) {
    for (size_t i = 0; i < v->guide->block_count; i++) {
        const struct block *b = v->guide->blocks[i];
        const struct circuit_work *w =
            b->circuit == NULL || !circuit_as_found(b)
                ? NULL
                : v->of_block[i].circuit[t->variant];
        size_t count = w == NULL ? 0 : w->c->element_count;
        for (size_t k = 0; k < count; k++)
            if (w->part[k].law == LAW_WIRE && w->part[k].run != NULL &&
                same_wire(&w->part[k], wire))
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
        if (p->law != LAW_WIRE || p->run == NULL || circuit_part_existing(p) ||
            is_there(v, t, p))
            continue;
        add_ends(t, p->run->ampacity.use.size, 2);
        add(t, p->run->ampacity.use.size, e->colour,
            range_ends(p->figure[0]).high);
        const struct block *run =
            values_block(v, w->b->scope, e->word[0], "wire");
        if (run != NULL)
            named[run->index] = true;
    }
}

static void add_run(const struct values *v, const struct block *b,
                    struct totals *t) {
    static const struct text none[2] = {{NULL, 0}, {NULL, 0}};
    const struct slot *size = names_field(v, b, "size");
    const struct slot *loop = names_field(v, b, "loop");
    if (size == NULL || loop == NULL)
        return;
    const struct value *s = &size->named.by_variant[t->variant];
    const struct value *l = &loop->named.by_variant[t->variant];
    if (s->type != VALUE_SIZE || l->type != VALUE_QUANTITY)
        return;
    const struct slot *way = names_setting(v, b, "return");
    const struct value *one =
        way == NULL ? NULL : &way->named.by_variant[t->variant];
    bool back = one == NULL || one->type != VALUE_TEXT ||
                text_is(one->text, "own wire");
    add_ends(t, s->size, back ? 4 : 2);
    add(t, s->size, none, range_ends(l->quantity).high);
}

static void add_all(const struct values *v, struct totals *t) {
    const struct guide *g = v->guide;
    bool *named = arena_alloc(t->arena, g->block_count + 1, sizeof *named);
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        const struct circuit_work *w = b->circuit == NULL || circuit_as_found(b)
                                           ? NULL
                                           : v->of_block[i].circuit[t->variant];
        if (w != NULL)
            add_circuit(v, w, t, named);
    }
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (b->kind->id == KIND_WIRE && b->name.len > 0 && !named[i])
            add_run(v, b, t);
    }
}

struct wire_needs wire_needs(const struct values *v, struct arena *a) {
    struct totals t = {.arena = a, .variants = v->variant_count};
    for (t.variant = 0; t.variant < t.variants; t.variant++)
        if ((v->applies >> t.variant & 1) != 0)
            add_all(v, &t);
    return (struct wire_needs){t.list, t.count, t.ends, t.ends_count};
}

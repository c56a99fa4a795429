/* census_stated.c - the figures that somebody wrote: values, limits, what
 * stands in the lines of circuits. */
#include "base/arena.h"
#include "library/census_work.h"
#include "source/circuit_tree.h"
#include "source/kind.h"
#include "source/tree.h"
#include "values/quantity.h"

/* --- values --- */

/* What it is called means the same wherever it is said. */
static bool is_known(const struct block *b) {
    if (b == NULL)
        return true;
    switch (b->kind->id) {
    case KIND_FACTS:
    case KIND_VALUES:
    case KIND_SUPPLY:
    case KIND_LOAD:
    case KIND_TORQUE:
        return true;
    default:
        return false;
    }
}

static bool begins_with_digit(struct text t) {
    return t.len > 0 && t.start[0] >= '0' && t.start[0] <= '9';
}

static bool is_literal(const struct value *v) {
    if (v->type == VALUE_QUANTITY)
        return v->quantity->op == QUANTITY_ROOT &&
               v->quantity->root == ROOT_LITERAL;
    return v->type == VALUE_LIMIT ||
           (v->type == VALUE_SIZE && begins_with_digit(place_text(v->at)));
}

static void add_value(const struct census_of *o, const struct named *n,
                      size_t variants) {
    struct census *s = o->census;
    variant_set in = 0;
    struct text note = {NULL, 0};
    if (n->computed || n->name.len == 0 || n->name.start[0] == '.')
        return; /* those are settings of the guide or the shop */
    for (size_t k = 0; k < variants; k++) {
        const struct value *v = &n->by_variant[k];
        if (v->type == VALUE_QUANTITY && v->quantity->op == QUANTITY_ROOT &&
            note.len == 0)
            note = v->quantity->note;
        if (is_literal(v))
            in |= (variant_set)1 << k;
    }
    struct census_figure *f =
        in == 0 ? NULL
                : census_list(o, n->at, n->name,
                              values_print_over(o->work->values, s->arena, n,
                                                values_applies(o->work->values),
                                                PRINT_RANGE),
                              in & values_applies(o->work->values), "");
    if (f == NULL)
        return;
    f->source = text_cstr(s->arena, note);
    f->key = is_known(n->block) ? f->name : NULL;
}

/* --- limits of readings --- */

/* "the same" is what stands in the row above. */
static const struct cell *meant(const struct block *b, const struct entry *row,
                                const char *column) {
    for (const struct entry *e = row;; e--) {
        const struct cell *cell =
            e->kind == ENTRY_ROW ? tree_cell(b, e, column) : NULL;
        if (cell != NULL && !text_is(cell->text, "the same"))
            return cell;
        if (e == b->entries)
            return NULL;
    }
}

/* A cell as it prints for these vehicles: each {...} is its value. */
static struct text words_of(const struct census_of *o, const struct cell *cell,
                            variant_set in) {
    struct buf out = buf_in(o->census->arena);
    if (cell == NULL || cell->prose == NULL)
        return cell == NULL ? (struct text){NULL, 0} : cell->text;
    for (const struct inlines *i = cell->prose; i != NULL; i = i->next) {
        const char *value =
            i->kind == INLINE_MARK && i->mark->kind == MARK_VALUE
                ? values_print_mark(o->work->values, o->census->arena, i->mark,
                                    in)
                : NULL;
        if (value != NULL)
            buf_puts(&out, value);
        else if (i->kind == INLINE_MARK)
            buf_text(&out, place_text(i->at));
        else
            buf_text(&out, i->text);
    }
    return buf_as_text(&out);
}

/* "lost in the joint, lamp on" */
static struct text measured(const struct census_of *o, const struct block *b,
                            const struct entry *row, variant_set in) {
    struct arena *a = o->census->arena;
    struct text what = words_of(o, meant(b, row, "characteristic"), in);
    struct text when = words_of(o, meant(b, row, "condition"), in);
    struct buf out = buf_in(a);
    buf_text(&out, what);
    buf_puts(&out, what.len > 0 && when.len > 0 ? ", " : "");
    buf_text(&out, when);
    return text_squeezed(a, buf_as_text(&out));
}

/* Two guides that measure the same in the same state ask for the same, whatever
 * their rows are called. */
struct census_figure *census_limit(const struct census_of *o,
                                   const struct block *limits,
                                   const struct entry *row) {
    struct arena *a = o->census->arena;
    struct values *v = o->work->values;
    const struct cell *id = tree_cell(limits, row, "id");
    variant_set in = values_tagged(v, &row->tags) & values_applies(v);
    struct text words = measured(o, limits, row, in);
    struct buf name = buf_in(a);
    if (id != NULL)
        buf_text(&name, id->text);
    buf_puts(&name, " ");
    buf_text(&name, words);
    struct census_figure *f =
        census_list(o, row->at, buf_as_text(&name),
                    values_print_cell(v, a, limits, row, "limit", in), in,
                    "limit of a reading");
    if (f != NULL)
        f->key = words.len == 0 ? NULL : text_cstr(a, words);
    return f;
}

/* --- circuits --- */

/* "factory.G4" is "0.2 ohm to 0.5 ohm", as it was written. */
static void add_element(const struct census_of *o, const struct block *b,
                        const struct circuit_element *e) {
    struct arena *a = o->census->arena;
    struct buf name = buf_in(a), figures = buf_in(a);
    for (size_t i = 0; i < e->word_count; i++)
        if (begins_with_digit(e->word[i])) {
            buf_puts(&figures, figures.len > 0 ? ", " : "");
            buf_text(&figures, text_squeezed(a, e->word[i]));
        }
    if (figures.len == 0)
        return;
    buf_text(&name, b->name);
    buf_puts(&name, ".");
    buf_text(&name, e->id);
    struct values *v = o->work->values;
    struct census_figure *f = census_list(
        o, e->at, buf_as_text(&name), buf_cstr(&figures),
        values_tagged(v, &e->tags) & values_applies(v), "line of a circuit");
    if (f == NULL)
        return;
    f->source = text_cstr(a, e->note);
    census_use(o, f, "Electrical data");
}

static void add_circuit(const struct census_of *o, const struct block *b) {
    for (size_t i = 0; i < b->circuit->element_count; i++)
        add_element(o, b, &b->circuit->element[i]);
}

void census_stated(const struct census_of *o) {
    const struct guide *g = o->work->guide;
    const struct variant *list;
    size_t variants = values_variants(o->work->values, &list);
    for (size_t i = 0; i < values_count(o->work->values); i++)
        add_value(o, values_at(o->work->values, i), variants);
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (b->circuit != NULL && !b->circuit->bad)
            add_circuit(o, b);
        for (size_t k = 0; b->kind->id == KIND_LIMITS && k < b->entry_count;
             k++)
            if (b->entries[k].kind == ENTRY_ROW)
                census_limit(o, b, &b->entries[k]);
    }
}

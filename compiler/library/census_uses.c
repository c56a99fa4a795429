/* census_uses.c - where a guide prints its figures, and those that it prints
 * without anybody having written them under a name: what was worked out, what
 * stands in the text itself. */
#include "base/arena.h"
#include "layout/display.h"
#include "library/census_work.h"
#include "source/circuit_tree.h"
#include "source/kind.h"
#include "source/tree.h"
#include "values/figure.h"
#include "values/range.h"

#include <string.h>

/* The part of the page that has a block, in whatever section it was typed;
 * NULL: it prints where it stands. */
static const char *part_of_block(const struct block *b) {
    switch (b->kind->id) {
    case KIND_PRELIMINARY:
        return "Before you start";
    case KIND_PARTS:
        return "Parts";
    case KIND_LIMITS:
        return "Limits";
    default:
        return NULL;
    }
}

/* Or "step 9", or the heading of its section. */
static const char *place_of_node(struct arena *a, const struct node *n) {
    const char *part =
        n == NULL || n->block == NULL ? NULL : part_of_block(n->block);
    if (part != NULL)
        return part;
    const struct node *step = n == NULL ? NULL : tree_step(n);
    if (step != NULL && step->number != NULL)
        return arena_printf(a, "step\xC2\xA0%s", step->number);
    const struct node *section = n == NULL ? NULL : tree_section(n);
    return section == NULL ? "text"
                           : text_cstr(a, tree_plain(a, section->text));
}

/* --- values by their names --- */

/* What it rests on is used where it is printed. */
static void use_roots(const struct census_of *o, const struct named *n,
                      const char *place) {
    const struct variant *list;
    size_t variants = values_variants(o->work->values, &list), line;
    const char *path;
    for (size_t k = 0; k < variants; k++) {
        const struct value *v = &n->by_variant[k];
        const struct quantity *const *root;
        if (v->type != VALUE_QUANTITY)
            continue;
        size_t count = range_roots(o->work->compile.arena, v->quantity, &root);
        for (size_t i = 0; i < count; i++) {
            struct census_figure *f =
                census_where(o->work, root[i]->at, &path, &line)
                    ? census_find(o->census, path, line, (struct text){NULL, 0},
                                  NULL)
                    : NULL;
            if (f != NULL)
                census_use(o, f, place);
        }
    }
}

static void use_value(const struct census_of *o, const struct named *n,
                      const char *place) {
    size_t line;
    const char *path;
    struct census_figure *own =
        census_where(o->work, n->at, &path, &line)
            ? census_find(o->census, path, line, n->name, NULL)
            : NULL;
    if (own != NULL && own->origin[0] == '\0')
        census_use(o, own, place);
    use_roots(o, n, place);
}

static bool is_figure(const struct named *n, size_t variants) {
    for (size_t k = 0; k < variants; k++)
        if (n->by_variant[k].type == VALUE_QUANTITY ||
            n->by_variant[k].type == VALUE_SIZE)
            return true;
    return false;
}

/* One that follows from others, where it is printed. */
static void add_result(const struct census_of *o, const struct named *n,
                       const char *place) {
    const struct values *v = o->work->values;
    const struct variant *list;
    const char *path;
    size_t variants = values_variants(v, &list), line;
    if (!is_figure(n, variants) || !census_where(o->work, n->at, &path, &line))
        return;
    const struct census_figure *own =
        census_find(o->census, path, line, n->name, NULL);
    if (own != NULL && own->origin[0] == '\0')
        return; /* written there */
    struct census_figure *f =
        census_list(o, n->at, n->name,
                    values_print_over(v, o->census->arena, n, values_applies(v),
                                      PRINT_RANGE),
                    values_applies(v), "worked out");
    if (f != NULL)
        census_use(o, f, place);
}

/* --- what stands between braces --- */

/* "{7/16 in}", "{feed.drop * 2}": there is no name to it. */
static void add_typed(const struct census_of *o, const struct mark *m,
                      const char *place) {
    struct arena *a = o->census->arena;
    const struct values *v = o->work->values;
    struct census_figure *f = census_list(
        o, m->at, text_squeezed(a, place_text(m->at)),
        values_print_mark(v, a, m, values_applies(v)),
        values_readers(v, m->node) & values_applies(v), "written in the text");
    if (f != NULL)
        census_use(o, f, place);
}

static void use_mark(const struct census_of *o, const struct mark *m) {
    const struct named *n =
        values_find(o->work->values, m->scope, text_trim(m->text));
    const char *place = place_of_node(o->census->arena, m->node);
    if (n != NULL)
        use_value(o, n, place);
    if (n == NULL || m->supply.len > 0)
        add_typed(o, m, place);
    else
        add_result(o, n, place);
}

/* --- words of circuits, checks and limits --- */

/* "lights" of a circuit's line, or "pump.run": the guide's figures of that
 * name, or those whose names begin with it. */
static void use_word(const struct census_of *o, struct text word,
                     const char *place) {
    const struct values *v = o->work->values;
    for (size_t i = 0; word.len > 0 && i < values_count(v); i++) {
        const struct named *n = values_at(v, i);
        const char *path;
        size_t line;
        if (n->name.len < word.len ||
            !text_equal(text_part(n->name, 0, word.len), word) ||
            (n->name.len > word.len && n->name.start[word.len] != '.') ||
            !census_where(o->work, n->at, &path, &line))
            continue;
        struct census_figure *f =
            census_find(o->census, path, line, n->name, NULL);
        if (f != NULL)
            census_use(o, f, place);
    }
}

static void use_words(const struct census_of *o, struct text words,
                      const char *place) {
    struct text word;
    while (text_next_part(&words, ' ', &word))
        use_word(o, word, place);
}

/* What a solved circuit rests on is not told by its results: its lines tell. */
static void use_circuit(const struct census_of *o, const struct circuit *c) {
    for (size_t i = 0; i < c->supply_count; i++)
        use_word(o, c->supply[i].name, "Electrical data");
    for (size_t i = 0; i < c->element_count; i++)
        for (size_t k = 0; k < c->element[i].word_count; k++)
            use_words(o, c->element[i].word[k], "Electrical data");
}

static void use_check(const struct census_of *o, const struct block *b) {
    for (size_t i = 0; i < b->entry_count; i++)
        use_words(o, place_text(b->entries[i].at), "Calculations");
}

/* The table of readings, and each step that takes one. */
static void use_limit(const struct census_of *o, const struct block *b,
                      const struct entry *row) {
    const struct cell *id = tree_cell(b, row, "id");
    const struct cell *limit = tree_cell(b, row, "limit");
    const struct guide *g = o->work->guide;
    struct census_figure *f = census_limit(o, b, row);
    if (f == NULL)
        return;
    census_use(o, f, "Limits");
    for (size_t i = 0; id != NULL && i < g->mark_count; i++)
        if (g->marks[i]->kind == MARK_READING &&
            text_equal(text_trim(g->marks[i]->text), id->text))
            census_use(o, f,
                       place_of_node(o->census->arena, g->marks[i]->node));
    if (limit != NULL)
        use_words(o, limit->text, "Limits");
}

/* --- the tables of blocks --- */

static const char *place_of_block(const struct block *b) {
    switch (b->kind->id) {
    case KIND_WIRE:
    case KIND_FUSE:
    case KIND_CIRCUIT:
        return "Electrical data";
    case KIND_TORQUE:
        return "Torque";
    default:
        return NULL;
    }
}

static bool is_said(const struct census_of *o, const char *place,
                    const char *text) {
    struct arena *a = o->work->compile.arena;
    const char *plain = text == NULL ? NULL : figure_plain(a, text);
    for (size_t i = 0; plain != NULL && i < o->printed->count; i++) {
        const struct passage *p = &o->printed->list[i];
        if (text_is(p->place, place) &&
            figure_is_in(figure_plain(a, text_cstr(a, p->words)), plain))
            return true;
    }
    return false;
}

/* Whether a value stands among the words of a place, as a table has it: the
 * figure itself, or the end that counts. */
static bool is_printed(const struct census_of *o, const struct named *n,
                       const char *place) {
    static const enum print_form forms[] = {PRINT_PLAIN, PRINT_LOW, PRINT_HIGH};
    const struct values *v = o->work->values;
    bool any = false;
    for (size_t i = 0; i < sizeof forms / sizeof forms[0] && !any; i++)
        any = is_said(o, place,
                      values_print(v, o->work->compile.arena, n,
                                   values_first(v), forms[i]));
    return any;
}

static void use_block_value(const struct census_of *o, const struct named *n) {
    const char *place = n->block == NULL || n->block->scope->parent == NULL
                            ? NULL
                            : place_of_block(n->block);
    if (place == NULL)
        return;
    use_value(o, n, place);
    if (n->computed && n->block->kind->id != KIND_CIRCUIT &&
        is_printed(o, n, place))
        add_result(o, n, place);
}

void census_uses(const struct census_of *o) {
    const struct guide *g = o->work->guide;
    for (size_t i = 0; i < g->mark_count; i++)
        if (g->marks[i]->kind == MARK_VALUE)
            use_mark(o, g->marks[i]);
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (b->circuit != NULL && !b->circuit->bad)
            use_circuit(o, b->circuit);
        if (b->kind->id == KIND_CHECK)
            use_check(o, b);
        for (size_t k = 0; b->kind->id == KIND_LIMITS && k < b->entry_count;
             k++)
            if (b->entries[k].kind == ENTRY_ROW)
                use_limit(o, b, &b->entries[k]);
    }
    for (size_t i = 0; i < values_count(o->work->values); i++)
        use_block_value(o, values_at(o->work->values, i));
}

/* census.c - what the guides of a library state and print. */
#include "library/census.h"

#include "base/arena.h"
#include "layout/display.h"
#include "library/freeze.h"
#include "library/shelf.h"
#include "source/circuit_tree.h"
#include "source/kind.h"
#include "source/landmark.h"
#include "source/list.h"
#include "source/tree.h"
#include "values/range.h"
#include "values/values.h"

#include <stdlib.h>
#include <string.h>

static const char *copy(struct census *s, const char *text) {
    return text == NULL ? "" : arena_copy(s->arena, text, strlen(text));
}

static struct text copied(struct census *s, struct text t) {
    return t.start == NULL ? t : (struct text){text_cstr(s->arena, t), t.len};
}

/* A span to its file and line. */
static bool place_of_span(const struct guidework *w, struct span at,
                          const char **path, size_t *line) {
    if (at.src == NULL)
        return false;
    *path = shelf_from_root(w->root, at.src->path);
    *line = place_position(at.src, at.start).line;
    return true;
}

static struct census_figure *find(const struct census *s, const char *path,
                                  size_t line, struct text name) {
    for (size_t i = 0; i < s->count; i++)
        if (s->figure[i].line == line && strcmp(s->figure[i].path, path) == 0 &&
            (name.len == 0 || text_is(name, s->figure[i].name)))
            return &s->figure[i];
    return NULL;
}

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

static const char *source_of(struct census *s, const struct named *n,
                             size_t variants) {
    for (size_t k = 0; k < variants; k++) {
        const struct value *v = &n->by_variant[k];
        if (v->type == VALUE_QUANTITY && v->quantity->op == QUANTITY_ROOT &&
            v->quantity->note.len > 0)
            return text_cstr(s->arena, v->quantity->note);
    }
    return "";
}

/* A literal: quantity or size that somebody wrote. */
static bool is_stated(const struct named *n, size_t variants) {
    bool any = false;
    for (size_t k = 0; !n->computed && k < variants; k++) {
        const struct value *v = &n->by_variant[k];
        any |= v->type == VALUE_QUANTITY && v->quantity->op == QUANTITY_ROOT &&
               v->quantity->root == ROOT_LITERAL;
    }
    return any && n->name.len > 0 && n->name.start[0] != '.';
}

static void add_figure(struct census *s, const struct guidework *w,
                       const struct named *n, size_t variants) {
    const char *path;
    size_t line;
    const char *name = text_cstr(s->arena, n->name);
    if (!place_of_span(w, n->at, &path, &line) ||
        find(s, path, line, n->name) != NULL)
        return;
    s->figure =
        list_grown(s->arena, s->figure, s->count, &s->room, sizeof *s->figure);
    s->figure[s->count++] = (struct census_figure){
        .name = name,
        .printed =
            copy(s, values_print_over(w->values, s->arena, n,
                                      values_applies(w->values), PRINT_RANGE)),
        .source = source_of(s, n, variants),
        .path = copy(s, path),
        .line = line,
        .shared = strcmp(path, shelf_from_root(w->root, w->path)) != 0,
        .known = is_known(n->block)};
}

static void add_use(struct census *s, struct census_figure *f,
                    const char *guide, const char *place, int page) {
    for (size_t i = 0; i < f->use_count; i++)
        if (strcmp(f->use[i].guide, guide) == 0 &&
            strcmp(f->use[i].place, place) == 0)
            return;
    f->use = list_grown(s->arena, f->use, f->use_count, &f->use_room,
                        sizeof *f->use);
    f->use[f->use_count++] = (struct census_use){guide, place, page};
}

static int page_of(const struct passages *printed, const char *place) {
    for (size_t i = 0; i < printed->count; i++)
        if (text_is(printed->list[i].place, place))
            return printed->list[i].page;
    return 0;
}

/* A named value itself, and all that it rests on, is used at a place of the
 * sheet. */
static void use_value(struct census *s, const struct guidework *w,
                      const struct passages *printed, const struct named *n,
                      const char *guide, const char *place) {
    const struct variant *list;
    size_t variants = values_variants(w->values, &list), line;
    const char *path;
    struct census_figure *own = place_of_span(w, n->at, &path, &line)
                                    ? find(s, path, line, n->name)
                                    : NULL;
    if (own != NULL)
        add_use(s, own, guide, place, page_of(printed, place));
    for (size_t k = 0; k < variants; k++) {
        const struct value *v = &n->by_variant[k];
        const struct quantity *const *root;
        if (v->type != VALUE_QUANTITY)
            continue;
        size_t count = range_roots(w->compile.arena, v->quantity, &root);
        for (size_t i = 0; i < count; i++) {
            struct census_figure *f =
                place_of_span(w, root[i]->at, &path, &line)
                    ? find(s, path, line, (struct text){NULL, 0})
                    : NULL;
            if (f != NULL)
                add_use(s, f, guide, place, page_of(printed, place));
        }
    }
}

/* "step 9", or the heading of its section. */
static const char *place_of_node(struct census *s, const struct node *n) {
    const struct node *step = n == NULL ? NULL : tree_step(n);
    if (step != NULL && step->number != NULL)
        return arena_printf(s->arena, "step\xC2\xA0%s", step->number);
    const struct node *section = n == NULL ? NULL : tree_section(n);
    return section == NULL
               ? "text"
               : text_cstr(s->arena, tree_plain(s->arena, section->text));
}

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

/* A guide's own words, and where it prints them. */
struct words_of {
    struct census *census;
    const struct guidework *work;
    const struct passages *printed;
    const char *guide;
};

/* "lights" of a circuit's line, or "pump.run": the guide's figures of that
 * name, or those whose names begin with it. */
static void use_word(const struct words_of *o, struct text word,
                     const char *place) {
    for (size_t i = 0; word.len > 0 && i < values_count(o->work->values); i++) {
        const struct named *n = values_at(o->work->values, i);
        const char *path;
        size_t line;
        if (n->name.len < word.len ||
            !text_equal(text_part(n->name, 0, word.len), word) ||
            (n->name.len > word.len && n->name.start[word.len] != '.') ||
            !place_of_span(o->work, n->at, &path, &line))
            continue;
        struct census_figure *f = find(o->census, path, line, n->name);
        if (f != NULL)
            add_use(o->census, f, o->guide, place, page_of(o->printed, place));
    }
}

static void use_words(const struct words_of *o, struct text words,
                      const char *place) {
    struct text word;
    while (text_next_part(&words, ' ', &word))
        use_word(o, word, place);
}

/* What a solved circuit rests on is not told by its results: its lines tell. */
static void use_circuit(const struct words_of *o, const struct circuit *c) {
    for (size_t i = 0; i < c->supply_count; i++)
        use_word(o, c->supply[i].name, "Electrical data");
    for (size_t i = 0; i < c->element_count; i++)
        for (size_t k = 0; k < c->element[i].word_count; k++)
            use_words(o, c->element[i].word[k], "Electrical data");
}

static void use_check(const struct words_of *o, const struct block *b) {
    for (size_t i = 0; i < b->entry_count; i++)
        use_words(o, place_text(b->entries[i].at), "Calculations");
}

static void add_uses(struct census *s, const struct guidework *w,
                     const struct passages *printed, const char *guide) {
    const struct guide *g = w->guide;
    const struct words_of own = {s, w, printed, guide};
    for (size_t i = 0; i < g->mark_count; i++) {
        const struct mark *m = g->marks[i];
        const struct named *n =
            m->kind == MARK_VALUE
                ? values_find(w->values, m->scope, text_trim(m->text))
                : NULL;
        if (n != NULL)
            use_value(s, w, printed, n, guide, place_of_node(s, m->node));
    }
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (b->circuit != NULL && !b->circuit->bad)
            use_circuit(&own, b->circuit);
        if (b->kind->id == KIND_CHECK)
            use_check(&own, b);
    }
    for (size_t i = 0; i < values_count(w->values); i++) {
        const struct named *n = values_at(w->values, i);
        const char *place = n->block == NULL || n->block->scope->parent == NULL
                                ? NULL
                                : place_of_block(n->block);
        if (place != NULL)
            use_value(s, w, printed, n, guide, place);
    }
}

/* "HB-004 Battery care": the number in front, where that is one. */
static void add_tie(struct census *s, struct census_guide *g, struct text item,
                    bool after) {
    struct text id = landmark_guide(item);
    if (id.len == 0)
        return;
    g->tie = list_grown(s->arena, g->tie, g->tie_count, &g->tie_room,
                        sizeof *g->tie);
    g->tie[g->tie_count++] =
        (struct census_tie){text_cstr(s->arena, id), after};
}

static void add_ties(struct census *s, struct census_guide *g,
                     const struct block *b) {
    for (size_t i = 0; b != NULL && i < b->entry_count; i++) {
        const struct entry *e = &b->entries[i];
        bool after = e->setting != NULL && text_is(e->key, "after");
        if (!after && (e->setting == NULL || !text_is(e->key, "before")))
            continue;
        for (size_t n = 0; n < e->choice_count; n++)
            for (size_t k = 0; k < e->choices[n].item_count; k++)
                add_tie(s, g, e->choices[n].items[k].text, after);
    }
}

/* As it would be issued, in the census' own memory. */
static void add_guide(struct census *s, const struct guidework *w,
                      const struct passages *printed, const char *stem) {
    struct issued now = freeze_whole(w->compile.arena, w->root, w->guide,
                                     w->values, w->pages, printed);
    struct passage *list =
        arena_alloc(s->arena, printed->count + 1, sizeof *list);
    for (size_t i = 0; i < printed->count; i++)
        list[i] = (struct passage){copied(s, printed->list[i].place),
                                   copied(s, printed->list[i].words),
                                   printed->list[i].page};
    struct issued_value *value =
        arena_alloc(s->arena, now.value_count + 1, sizeof *value);
    for (size_t i = 0; i < now.value_count; i++)
        value[i] = (struct issued_value){copied(s, now.value[i].name),
                                         copied(s, now.value[i].printed)};
    now.printed.list = list;
    now.value = value;
    now.id = copied(s, now.id);
    now.guide = copied(s, now.guide);
    now.title = copied(s, now.title);
    now.author = copied(s, now.author);
    now.approver = copied(s, now.approver);
    now.code = copied(s, now.code);
    now.source = NULL;
    now.source_count = 0;
    s->guide = list_grown(s->arena, s->guide, s->guide_count, &s->guide_room,
                          sizeof *s->guide);
    struct census_guide *g = &s->guide[s->guide_count++];
    *g = (struct census_guide){.stem = stem,
                               .path =
                                   copy(s, shelf_from_root(w->root, w->path)),
                               .now = now};
    add_ties(s, g, w->guide->identity);
}

void census_add(struct census *s, const struct guidework *w,
                const struct passages *printed) {
    const struct variant *list;
    size_t variants = values_variants(w->values, &list);
    const char *stem = copy(s, w->guide->stem);
    for (size_t i = 0; i < values_count(w->values); i++) {
        const struct named *n = values_at(w->values, i);
        if (is_stated(n, variants))
            add_figure(s, w, n, variants);
    }
    add_uses(s, w, printed, stem);
    add_guide(s, w, printed, stem);
}

static int by_place(const void *left, const void *right) {
    const struct census_figure *a = left, *b = right;
    int order = strcmp(a->path, b->path);
    if (order != 0)
        return order;
    if (a->line != b->line)
        return a->line < b->line ? -1 : 1;
    return strcmp(a->name, b->name);
}

void census_sort(struct census *s) {
    if (s->count > 1)
        qsort(s->figure, s->count, sizeof *s->figure, by_place);
}

size_t census_conflict(const struct census *s, size_t i, size_t after) {
    const struct census_figure *f = &s->figure[i];
    for (size_t k = after + 1; f->known && k < s->count; k++) {
        const struct census_figure *g = &s->figure[k];
        if (g->known && strcmp(f->name, g->name) == 0 &&
            strcmp(f->path, g->path) != 0 &&
            strcmp(f->printed, g->printed) != 0)
            return k;
    }
    return s->count;
}

const struct census_guide *census_guide_of(const struct census *s,
                                           const char *id) {
    for (size_t i = 0; i < s->guide_count; i++)
        if (text_is(s->guide[i].now.id, id))
            return &s->guide[i];
    return NULL;
}

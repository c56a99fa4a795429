/* walk.c - the steps of a guide in order, with what each touches, does, names.
 */
#include "checks/walk.h"

#include "base/arena.h"
#include "base/list.h"
#include "source/kind.h"

#include <stdlib.h>

enum { HEADING_LEVELS = 7 };

struct walker {
    struct arena *arena;
    const struct guide *guide;
    const struct block **by_name; /* sorted by name */
    size_t name_count, longest;   /* bytes of the longest name */
};

static bool is_outermost(const struct node *n) {
    if (n->kind != NODE_STEP)
        return false;
    for (const struct node *p = n->parent; p != NULL; p = p->parent)
        if (p->kind == NODE_STEP)
            return false;
    return true;
}

static bool lies_within(const struct node *n, const struct node *outer) {
    for (; n != NULL; n = n->parent)
        if (n == outer)
            return true;
    return false;
}

static void add_mark(struct arena *a, struct step_words *s,
                     const struct mark *m) {
    s->mark =
        list_grown(a, s->mark, s->mark_count, &s->mark_room, sizeof(*s->mark));
    s->mark[s->mark_count++] = m;
}

static void add_marks(struct arena *a, struct step_words *s,
                      const struct node *n) {
    for (size_t i = 0; i < n->mark_count; i++)
        if (n->marks[i]->kind == MARK_TOUCHES || n->marks[i]->kind == MARK_DOES)
            add_mark(a, s, n->marks[i]);
}

static void add_value(struct arena *a, struct step_words *s,
                      const struct mark *m) {
    s->value = list_grown(a, s->value, s->value_count, &s->value_room,
                          sizeof(*s->value));
    s->value[s->value_count++] = m;
}

static void add_named(struct arena *a, struct step_words *s,
                      const struct block *b) {
    s->named = list_grown(a, s->named, s->named_count, &s->named_room,
                          sizeof(*s->named));
    s->named[s->named_count++] = b;
}

static int compare_names(const void *left, const void *right) {
    const struct block *const *a = left, *const *b = right;
    int order = text_compare((*a)->name, (*b)->name);
    if (order != 0)
        return order;
    return ((*a)->index > (*b)->index) - ((*a)->index < (*b)->index);
}

/* Blocks that compute, and what they compute from. */
static bool is_nameable(const struct block *b) {
    enum kind_id k = b->kind->id;
    return b->name.len > 0 &&
           (k == KIND_SUPPLY || k == KIND_LOAD || k == KIND_WIRE ||
            k == KIND_FUSE || k == KIND_TORQUE || k == KIND_CIRCUIT);
}

static void collect_names(struct walker *w) {
    const struct guide *g = w->guide;
    w->by_name = arena_alloc(w->arena, g->block_count + 1, sizeof(*w->by_name));
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (!is_nameable(b))
            continue;
        w->by_name[w->name_count++] = b;
        w->longest = b->name.len > w->longest ? b->name.len : w->longest;
    }
    qsort(w->by_name, w->name_count, sizeof(*w->by_name), compare_names);
}

static void add_blocks_of(const struct walker *w, struct step_words *s,
                          struct text name) {
    size_t low = 0, high = w->name_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (text_compare(w->by_name[middle]->name, name) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    for (; low < w->name_count && text_equal(w->by_name[low]->name, name);
         low++)
        add_named(w->arena, s, w->by_name[low]);
}

static bool is_word_byte(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
           (c >= '0' && c <= '9') || (unsigned char)c >= 0x80;
}

static bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

/* The names that begin at a word: `feed`, and with its dots `feed.rear`. In
 * prose only those that end in a digit count: "feed" is an everyday word. */
static void add_names_at(const struct walker *w, struct step_words *s,
                         struct text t, size_t from, bool prose) {
    for (size_t to = from + 1; to <= t.len && to - from <= w->longest; to++) {
        if (to < t.len && is_word_byte(t.start[to]))
            continue;
        if (!prose || is_digit(t.start[to - 1]))
            add_blocks_of(w, s, text_part(t, from, to));
        if (to == t.len || t.start[to] != '.')
            return;
    }
}

static void add_names(const struct walker *w, struct step_words *s,
                      struct text t, bool prose) {
    for (size_t i = 0; i < t.len; i++)
        if (is_word_byte(t.start[i]) &&
            (i == 0 || !is_word_byte(t.start[i - 1])))
            add_names_at(w, s, t, i, prose);
}

static void add_names_in(const struct walker *w, struct step_words *s,
                         const struct inlines *i) {
    for (; i != NULL; i = i->next) {
        if (i->kind == INLINE_MARK && i->mark->kind == MARK_VALUE) {
            add_value(w->arena, s, i->mark);
            add_names(w, s, i->mark->text, false);
        }
        if (i->kind == INLINE_TEXT)
            add_names(w, s, i->text, true);
        add_names_in(w, s, i->first);
    }
}

/* Marks of the step and all in it, of its section, and of the headings that it
 * stands under; and what the step names. */
static void collect(const struct walker *w, struct step_words *s,
                    const struct node *const *heading) {
    const struct guide *g = w->guide;
    if (s->section != NULL)
        add_marks(w->arena, s, s->section);
    for (int i = 0; i < HEADING_LEVELS; i++)
        if (heading[i] != NULL)
            add_marks(w->arena, s, heading[i]);
    for (size_t i = s->step->index; i < g->node_count; i++) {
        const struct node *n = g->nodes[i];
        if (!lies_within(n, s->step))
            break;
        add_marks(w->arena, s, n);
        if (n->kind == NODE_BLOCK && is_nameable(n->block))
            add_named(w->arena, s, n->block);
        add_names_in(w, s, n->text);
    }
}

/* The headings above a node, by level; a section ends them all. */
static void pass_heading(const struct node **heading, const struct node *n) {
    int from = n->kind == NODE_SECTION ? 0
               : n->kind == NODE_HEADING && n->level < HEADING_LEVELS
                   ? n->level
                   : HEADING_LEVELS;
    for (int k = from; k < HEADING_LEVELS; k++)
        heading[k] = NULL;
    if (n->kind == NODE_HEADING && n->level < HEADING_LEVELS)
        heading[n->level] = n;
}

struct steps *walk_steps(struct compile *c, const struct guide *g,
                         const struct values *v) {
    struct walker w = {.arena = c->arena, .guide = g};
    collect_names(&w);
    struct steps *all = arena_alloc(c->arena, 1, sizeof *all);
    all->step = arena_alloc(c->arena, g->node_count + 1, sizeof *all->step);
    const struct node *heading[HEADING_LEVELS] = {NULL};
    for (size_t i = 0; i < g->node_count; i++) {
        const struct node *n = g->nodes[i];
        pass_heading(heading, n);
        if (!is_outermost(n))
            continue;
        struct step_words *s = &all->step[all->count++];
        s->step = n;
        s->section = tree_section(n);
        s->variants = values_applies(v) & values_readers(v, n);
        collect(&w, s, heading);
        s->said = spoken_of_step(c->arena, g, n, true);
    }
    return all;
}

static bool has_word(const struct mark *m, struct text word) {
    for (size_t i = 0; i < m->list.count; i++)
        if (text_equal(m->list.tag[i], word))
            return true;
    return false;
}

const struct mark *walk_mark(const struct step_words *s,
                             const struct text *word, size_t count) {
    for (size_t i = 0; i < s->mark_count; i++)
        for (size_t k = 0; k < count; k++)
            if (has_word(s->mark[i], word[k]))
                return s->mark[i];
    return NULL;
}

bool walk_has_word(const struct step_words *s, struct text word) {
    return walk_mark(s, &word, 1) != NULL;
}

bool walk_touches_nothing(const struct step_words *s) {
    return walk_has_word(s, text_of("nothing"));
}

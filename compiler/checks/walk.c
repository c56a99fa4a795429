/* walk.c - the steps of a guide in order, with what each touches and does. */
#include "checks/walk.h"

#include "base/arena.h"

enum { HEADING_LEVELS = 7 };

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

static void add_marks(struct step_words *s, const struct node *n) {
    for (size_t i = 0; i < n->mark_count; i++)
        if (n->marks[i]->kind == MARK_TOUCHES || n->marks[i]->kind == MARK_DOES)
            s->mark[s->mark_count++] = n->marks[i];
}

static variant_set variants_of(const struct values *v, const struct node *n) {
    variant_set s = values_applies(v);
    for (; n != NULL; n = n->parent)
        for (size_t i = 0; i < n->mark_count; i++)
            if (n->marks[i]->kind == MARK_FOR)
                s &= values_tagged(v, &n->marks[i]->list);
    return s;
}

/* Marks of the step and all in it, of its section, and of the headings that it
 * stands under. */
static void collect_marks(const struct guide *g, struct step_words *s,
                          const struct node *const *heading) {
    if (s->section != NULL)
        add_marks(s, s->section);
    for (int i = 0; i < HEADING_LEVELS; i++)
        if (heading[i] != NULL)
            add_marks(s, heading[i]);
    for (size_t i = s->step->index; i < g->node_count; i++) {
        if (!lies_within(g->nodes[i], s->step))
            break;
        add_marks(s, g->nodes[i]);
    }
}

struct steps *walk_steps(struct compile *c, const struct guide *g,
                         const struct values *v) {
    struct steps *all = arena_alloc(c->arena, 1, sizeof *all);
    all->step = arena_alloc(c->arena, g->node_count + 1, sizeof *all->step);
    const struct node *heading[HEADING_LEVELS] = {NULL};
    for (size_t i = 0; i < g->node_count; i++) {
        const struct node *n = g->nodes[i];
        if (n->kind == NODE_SECTION)
            for (int k = 0; k < HEADING_LEVELS; k++)
                heading[k] = NULL;
        if (n->kind == NODE_HEADING && n->level < HEADING_LEVELS) {
            for (int k = n->level; k < HEADING_LEVELS; k++)
                heading[k] = NULL;
            heading[n->level] = n;
        }
        if (!is_outermost(n))
            continue;
        struct step_words *s = &all->step[all->count++];
        s->step = n;
        s->section = tree_section(n);
        s->variants = variants_of(v, n);
        s->mark = arena_alloc(c->arena, g->mark_count + 1, sizeof(*s->mark));
        collect_marks(g, s, heading);
    }
    return all;
}

bool walk_has_word(const struct step_words *s, struct text word) {
    for (size_t i = 0; i < s->mark_count; i++)
        for (size_t k = 0; k < s->mark[i]->list.count; k++)
            if (text_equal(s->mark[i]->list.tag[k], word))
                return true;
    return false;
}

static bool is_word_byte(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
           (c >= '0' && c <= '9') || (unsigned char)c >= 0x80;
}

static bool has_word(struct text t, struct text word) {
    for (size_t i = 0; word.len > 0 && i + word.len <= t.len; i++) {
        if (!text_equal(text_part(t, i, i + word.len), word))
            continue;
        bool starts = i == 0 || !is_word_byte(t.start[i - 1]);
        bool ends =
            i + word.len == t.len || !is_word_byte(t.start[i + word.len]);
        if (starts && ends)
            return true;
    }
    return false;
}

static bool in_prose(const struct inlines *i, const struct block *b) {
    /* "feed" is an everyday word: a wire counts as named by its value only. */
    bool by_text = b->name.len > 0 && b->name.start[b->name.len - 1] >= '0' &&
                   b->name.start[b->name.len - 1] <= '9';
    for (; i != NULL; i = i->next) {
        if (i->kind == INLINE_MARK && i->mark->kind == MARK_VALUE &&
            has_word(i->mark->text, b->name))
            return true;
        if (by_text && i->kind == INLINE_TEXT && has_word(i->text, b->name))
            return true;
        if (in_prose(i->first, b))
            return true;
    }
    return false;
}

bool walk_names(const struct guide *g, const struct step_words *s,
                const struct block *b) {
    for (size_t i = s->step->index; i < g->node_count; i++) {
        const struct node *n = g->nodes[i];
        if (!lies_within(n, s->step))
            return false;
        if (n->kind == NODE_BLOCK && n->block == b)
            return true;
        if (in_prose(n->text, b))
            return true;
    }
    return false;
}

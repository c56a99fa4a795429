/* namesake.c - what tells two blocks of one name apart. */
#include "source/namesake.h"

#include "base/arena.h"

/* A block of the same name and kind, out of another use of a shared file. */
static bool is_other(const struct block *b, const struct block *o) {
    return o != b && o->kind == b->kind && o->node != NULL &&
           o->scope != b->scope && text_equal(o->name, b->name);
}

/* What was passed in by this name, as a text in quotes; else absent. */
static struct text passed(const struct block *b, struct text key) {
    const struct block *include = b->scope->include;
    for (size_t i = 0; include != NULL && i < include->entry_count; i++) {
        const struct entry *e = &include->entries[i];
        if (e->kind != ENTRY_DEFINITION || e->choice_count != 1 ||
            !text_equal(e->key, key))
            continue;
        struct text t = text_trim(e->choices[0].text);
        if (t.len > 2 && t.start[0] == '"' && t.start[t.len - 1] == '"')
            return text_part(t, 1, t.len - 1);
    }
    return (struct text){NULL, 0};
}

/* Whether no other block of the name was given this text. */
static bool is_own(const struct guide *g, const struct block *b,
                   struct text key, struct text t) {
    for (size_t i = 0; i < g->block_count; i++)
        if (is_other(b, g->blocks[i]) &&
            text_equal(passed(g->blocks[i], key), t))
            return false;
    return true;
}

static struct text own_text(const struct guide *g, const struct block *b) {
    const struct block *include = b->scope->include;
    for (size_t i = 0; include != NULL && i < include->entry_count; i++) {
        struct text t = passed(b, include->entries[i].key);
        if (t.len > 0 && is_own(g, b, include->entries[i].key, t))
            return t;
    }
    return (struct text){NULL, 0};
}

/* Of the first step that stands at or behind the block; NULL: none. */
static const char *step_of(const struct guide *g, const struct block *b) {
    const struct node *n = tree_step(b->node);
    for (size_t i = b->node->index; n == NULL && i < g->node_count; i++)
        if (g->nodes[i]->kind == NODE_STEP)
            n = g->nodes[i];
    return n == NULL ? NULL : n->number;
}

const char *namesake_name(struct arena *a, const struct guide *g,
                          const struct block *b) {
    int len = (int)b->name.len;
    bool alone = true;
    for (size_t i = 0; b->node != NULL && i < g->block_count && alone; i++)
        alone = !is_other(b, g->blocks[i]);
    if (alone || len == 0)
        return text_cstr(a, b->name);
    struct text t = own_text(g, b);
    const char *step = step_of(g, b);
    if (t.len > 0)
        return arena_printf(a, "%.*s, %.*s", len, b->name.start, (int)t.len,
                            t.start);
    return step == NULL
               ? text_cstr(a, b->name)
               : arena_printf(a, "%.*s, step %s", len, b->name.start, step);
}

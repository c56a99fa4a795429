/* reading.c - a guide in the making: what the parts of source/ add to. */
#include "source/reading.h"

#include "base/arena.h"
#include "base/list.h"
#include "stages.h"

#include <string.h>

struct reading *reading_new(struct compile *c) {
    struct reading *r = arena_alloc(c->arena, 1, sizeof *r);
    r->c = c;
    r->guide = arena_alloc(c->arena, 1, sizeof *r->guide);
    return r;
}

struct reading *reading_again(struct compile *c, const struct guide *read) {
    struct reading *r = reading_new(c);
    *r->guide = *read;
    r->file_room = read->file_count;
    r->scope_room = read->scope_count;
    r->block_room = read->block_count;
    r->mark_room = read->mark_count;
    r->node_room = read->node_count;
    return r;
}

const struct source *reading_has_file(const struct reading *r,
                                      const char *path) {
    const struct guide *g = r->guide;
    for (size_t i = 0; i < g->file_count; i++)
        if (strcmp(g->files[i]->path, path) == 0)
            return g->files[i];
    return NULL;
}

void reading_file(struct reading *r, const struct source *src) {
    struct guide *g = r->guide;
    if (reading_has_file(r, src->path) != NULL)
        return;
    g->files = list_grown(r->c->arena, g->files, g->file_count, &r->file_room,
                          sizeof(const struct source *));
    g->files[g->file_count++] = src;
}

struct scope *reading_scope(struct reading *r, const struct scope *parent,
                            const struct source *src,
                            const struct block *include) {
    struct guide *g = r->guide;
    struct scope *s = arena_alloc(r->c->arena, 1, sizeof *s);
    *s = (struct scope){parent, src, include, g->scope_count};
    g->scopes = list_grown(r->c->arena, g->scopes, g->scope_count,
                           &r->scope_room, sizeof(struct scope *));
    g->scopes[g->scope_count++] = s;
    return s;
}

static void note_mark(struct reading *r, struct mark *m,
                      const struct node *node) {
    struct guide *g = r->guide;
    m->node = node;
    m->index = g->mark_count;
    g->marks = list_grown(r->c->arena, g->marks, g->mark_count, &r->mark_room,
                          sizeof(struct mark *));
    g->marks[g->mark_count++] = m;
}

static void note_inlines(struct reading *r, struct inlines *list,
                         const struct node *node) {
    for (struct inlines *i = list; i != NULL; i = i->next) {
        if (i->mark != NULL)
            note_mark(r, i->mark, node);
        note_inlines(r, i->first, node);
    }
}

static void note_entry(struct reading *r, const struct entry *e,
                       const struct node *node) {
    for (size_t i = 0; i < e->choice_count; i++) {
        note_inlines(r, e->choices[i].prose, node);
        for (size_t k = 0; k < e->choices[i].item_count; k++)
            note_inlines(r, e->choices[i].items[k].prose, node);
    }
    for (size_t i = 0; i < e->cell_count; i++)
        for (const struct cell *k = &e->cells[i]; k != NULL; k = k->next)
            note_inlines(r, k->prose, node);
}

static void note_block(struct reading *r, struct block *b,
                       const struct node *node) {
    struct guide *g = r->guide;
    b->node = node;
    b->index = g->block_count;
    g->blocks = list_grown(r->c->arena, g->blocks, g->block_count,
                           &r->block_room, sizeof(struct block *));
    g->blocks[g->block_count++] = b;
    for (size_t i = 0; i < b->entry_count; i++)
        note_entry(r, &b->entries[i], node);
}

void reading_fact(struct reading *r, struct block *b) {
    note_block(r, b, NULL);
}

static void note_node(struct reading *r, struct node *n) {
    struct guide *g = r->guide;
    n->index = g->node_count;
    g->nodes = list_grown(r->c->arena, g->nodes, g->node_count, &r->node_room,
                          sizeof(struct node *));
    g->nodes[g->node_count++] = n;
    for (size_t i = 0; i < n->mark_count; i++)
        note_mark(r, n->marks[i], n);
    note_inlines(r, n->text, n);
    if (n->block != NULL)
        note_block(r, n->block, n);
    for (struct node *child = n->first; child != NULL; child = child->next)
        note_node(r, child);
}

void reading_index(struct reading *r) {
    note_inlines(r, r->guide->title_text, r->guide->root);
    note_node(r, r->guide->root);
}

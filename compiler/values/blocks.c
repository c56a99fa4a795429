/* blocks.c - the blocks of a guide by kind and name. */
#include "base/arena.h"
#include "values/model.h"

#include <stdlib.h>
#include <string.h>

/* Equal names side by side, then by scope, kind, place. */
static int compare(const struct block *a, struct text name, size_t scope,
                   enum kind_id kind) {
    int order = text_compare(a->name, name);
    if (order != 0)
        return order;
    if (a->scope->index != scope)
        return a->scope->index < scope ? -1 : 1;
    return (a->kind->id > kind) - (a->kind->id < kind);
}

static int compare_blocks(const void *left, const void *right) {
    const struct block *const *a = left, *const *b = right;
    int order = compare(*a, (*b)->name, (*b)->scope->index, (*b)->kind->id);
    if (order != 0)
        return order;
    return ((*a)->index > (*b)->index) - ((*a)->index < (*b)->index);
}

void blocks_collect(struct values *v) {
    const struct guide *g = v->guide;
    v->by_name =
        arena_alloc(v->c->arena, g->block_count + 1, sizeof(*v->by_name));
    for (size_t i = 0; i < g->block_count; i++)
        v->by_name[i] = g->blocks[i];
    qsort(v->by_name, g->block_count, sizeof(*v->by_name), compare_blocks);
}

/* The first of a run of blocks, ended by a NULL or a block that differs. */
static const struct block *const *first_of(const struct values *v,
                                           struct text name, size_t scope,
                                           enum kind_id kind) {
    size_t low = 0, high = v->guide->block_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (compare(v->by_name[middle], name, scope, kind) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return v->by_name + low;
}

static bool is_one(const struct block *b, struct text name,
                   const struct scope *scope, enum kind_id kind) {
    return b != NULL && compare(b, name, scope->index, kind) == 0;
}

/* Whether the kind is the one that `kinds` names here, up to a bar. */
static bool is_kind(const struct kind *k, const char *kinds) {
    size_t len = strlen(k->name);
    return strncmp(kinds, k->name, len) == 0 &&
           (kinds[len] == '|' || kinds[len] == '\0');
}

/* The inner scope before the outer, then the kind that is named first. */
const struct block *values_block(const struct values *v,
                                 const struct scope *from, struct text name,
                                 const char *kinds) {
    const struct block *const *named = first_of(v, name, 0, (enum kind_id)0);
    if (*named == NULL || !text_equal((*named)->name, name))
        return NULL;
    for (const struct scope *s = from; s != NULL; s = s->parent)
        for (const char *k = kinds; *k != '\0';) {
            for (const struct block *const *one = named;
                 *one != NULL && text_equal((*one)->name, name); one++)
                if ((*one)->scope->index == s->index &&
                    is_kind((*one)->kind, k))
                    return *one;
            k += strcspn(k, "|");
            k += *k == '|';
        }
    return NULL;
}

const struct block *blocks_stating(const struct values *v,
                                   const struct block *b, const char *setting) {
    const struct text unnamed = {NULL, 0};
    if (tree_setting(b, setting) != NULL)
        return b;
    if (b->name.len == 0)
        return NULL;
    for (const struct scope *s = b->scope; s != NULL; s = s->parent)
        for (const struct block *const *one =
                 first_of(v, unnamed, s->index, b->kind->id);
             is_one(*one, unnamed, s, b->kind->id); one++)
            if (tree_setting(*one, setting) != NULL)
                return *one;
    return NULL;
}

const struct entry *blocks_entry(const struct values *v, const struct block *b,
                                 const char *setting) {
    const struct block *from = blocks_stating(v, b, setting);
    return from == NULL ? NULL : tree_setting(from, setting);
}

const struct block *blocks_same_name(const struct values *v,
                                     const struct block *b,
                                     const struct scope *in) {
    const struct block *const *one =
        first_of(v, b->name, in->index, (enum kind_id)0);
    for (; *one != NULL && text_equal((*one)->name, b->name) &&
           (*one)->scope->index == in->index;
         one++)
        if ((*one)->index < b->index && names_has(*one))
            return *one;
    return NULL;
}

size_t blocks_listed(const struct values *v, const struct block *from,
                     struct text names, const char *kinds,
                     const struct block *const **list) {
    size_t commas = 0, count = 0;
    for (size_t i = 0; i < names.len; i++)
        commas += names.start[i] == ',';
    const struct block **found =
        arena_alloc(v->c->arena, commas + 1, sizeof(*found));
    struct text name;
    while (text_next_part(&names, ',', &name)) {
        const struct block *b = values_block(v, from->scope, name, kinds);
        if (b != NULL)
            found[count++] = b;
    }
    *list = found;
    return count;
}

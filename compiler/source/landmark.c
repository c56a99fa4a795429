/* landmark.c - what {see NAME} and [words](#NAME) can lead to. */
#include "source/landmark.h"

#include "base/arena.h"
#include "base/list.h"
#include "source/kind.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

static struct landmark *add(struct landmarks *k, enum landmark_kind kind,
                            struct text name, struct text shown) {
    k->list =
        list_grown(k->arena, k->list, k->count, &k->room, sizeof *k->list);
    struct landmark *one = &k->list[k->count];
    *one = (struct landmark){
        .kind = kind, .name = name, .shown = shown, .order = k->count};
    k->count++;
    return one;
}

static void add_step(struct landmarks *k, const struct mark *m) {
    const struct node *step = tree_step(m->node);
    struct text name = text_trim(m->text);
    if (step == NULL || name.len == 0)
        return;
    struct landmark *one = add(k, LANDMARK_STEP, name, name);
    one->node = step;
    one->scope = m->scope;
    one->at = m->at;
}

static void add_rows(struct landmarks *k, const struct block *b) {
    for (size_t i = 0; i < b->entry_count; i++) {
        const struct cell *id = tree_cell(b, &b->entries[i], "id");
        if (id == NULL || id->text.len == 0)
            continue;
        struct landmark *one = add(k, LANDMARK_READING, id->text, id->text);
        one->block = b;
        one->row = &b->entries[i];
        one->scope = b->scope;
        one->at = id->at;
    }
}

static void add_block(struct landmarks *k, const struct block *b) {
    if (b->node == NULL)
        return; /* in facts: printed by no guide */
    if (b->kind->id == KIND_LIMITS)
        add_rows(k, b);
    bool shown =
        (b->kind->flags & KIND_PRINTS_TABLE) != 0 || b->kind->id == KIND_FIGURE;
    if (!shown || b->name.len == 0)
        return;
    struct landmark *one = add(k, LANDMARK_BLOCK, b->name, b->name);
    one->block = b;
    one->scope = b->scope;
    one->at = b->at;
}

static struct text lowered(struct arena *a, struct text t) {
    char *copy = arena_copy(a, t.start, t.len);
    for (size_t i = 0; i < t.len; i++)
        copy[i] = (char)tolower((unsigned char)copy[i]);
    return (struct text){copy, t.len};
}

/* As Markdown viewers do it: small letters, a hyphen for each blank, other
 * signs left out. */
static struct text slug(struct arena *a, struct text title) {
    struct buf b = buf_in(a);
    for (size_t i = 0; i < title.len; i++) {
        char c = title.start[i];
        if (c == ' ' || c == '-')
            buf_puts(&b, "-");
        else if (isalnum((unsigned char)c) || c == '_' || (c & 0x80) != 0)
            buf_add(&b, &c, 1);
    }
    return buf_as_text(&b);
}

static void add_heading(struct landmarks *k, const struct node *n) {
    struct text title = tree_plain(k->arena, n->text);
    struct text low = lowered(k->arena, title);
    struct text names[] = {low, slug(k->arena, low)};
    for (size_t i = 0; i < 2; i++) {
        if (names[i].len == 0)
            continue;
        struct landmark *one =
            add(k, i == 0 ? LANDMARK_SECTION : LANDMARK_SLUG, names[i], title);
        one->node = n;
        one->scope = n->scope;
        one->at = n->at;
    }
}

static bool is_number(struct text word) {
    bool letter = false, figure = false;
    for (size_t i = 0; i < word.len; i++) {
        letter |= isalpha((unsigned char)word.start[i]) != 0;
        figure |= isdigit((unsigned char)word.start[i]) != 0;
    }
    return letter && figure;
}

struct text landmark_guide(struct text item) {
    item = text_trim(item);
    size_t end = 0;
    while (end < item.len && !isspace((unsigned char)item.start[end]) &&
           item.start[end] != ':')
        end++;
    struct text word = text_part(item, 0, end);
    return is_number(word) ? word : (struct text){NULL, 0};
}

static void add_item(struct landmarks *k, struct text item) {
    struct text word = landmark_guide(item);
    if (word.len > 0)
        add(k, LANDMARK_GUIDE, word, word);
}

static void add_guides(struct landmarks *k, const struct block *b) {
    for (size_t i = 0; i < b->entry_count; i++) {
        const struct entry *e = &b->entries[i];
        if (e->kind != ENTRY_SETTING || e->setting == NULL)
            continue;
        const char *name = e->setting->name;
        if (strcmp(name, "after") != 0 && strcmp(name, "before") != 0 &&
            strcmp(name, "references") != 0)
            continue;
        for (size_t n = 0; n < e->choice_count; n++)
            for (size_t x = 0; x < e->choices[n].item_count; x++)
                add_item(k, e->choices[n].items[x].text);
    }
}

static size_t scope_index(const struct landmark *one) {
    return one->scope == NULL ? 0 : one->scope->index;
}

static int compare(const void *left, const void *right) {
    const struct landmark *a = left, *b = right;
    int order = text_compare(a->name, b->name);
    if (order != 0)
        return order;
    if (a->kind != b->kind)
        return a->kind < b->kind ? -1 : 1;
    if (scope_index(a) != scope_index(b))
        return scope_index(a) < scope_index(b) ? -1 : 1;
    return a->order < b->order ? -1 : a->order > b->order;
}

struct landmarks *landmark_collect(struct arena *a, const struct guide *g) {
    struct landmarks *k = arena_alloc(a, 1, sizeof *k);
    k->arena = a;
    for (size_t i = 0; i < g->mark_count; i++)
        if (g->marks[i]->kind == MARK_STEP)
            add_step(k, g->marks[i]);
    for (size_t i = 0; i < g->node_count; i++)
        if (g->nodes[i]->kind == NODE_SECTION ||
            g->nodes[i]->kind == NODE_HEADING)
            add_heading(k, g->nodes[i]);
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        add_block(k, b);
        if (b->kind->id == KIND_GUIDE || b->kind->id == KIND_PRELIMINARY)
            add_guides(k, b);
    }
    if (k->count > 1)
        qsort(k->list, k->count, sizeof *k->list, compare);
    return k;
}

/* The first that is not before the wanted one. */
static const struct landmark *first_from(const struct landmarks *k,
                                         const struct landmark *wanted) {
    size_t low = 0, high = k->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (compare(&k->list[middle], wanted) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return low < k->count && text_equal(k->list[low].name, wanted->name)
               ? &k->list[low]
               : NULL;
}

/* The first kind from `kind` on that has the name; there, one of the scope. */
static const struct landmark *find(const struct landmarks *k,
                                   enum landmark_kind kind, struct text name,
                                   const struct scope *from) {
    struct landmark wanted = {.kind = kind, .name = name};
    const struct landmark *first = first_from(k, &wanted);
    if (first == NULL)
        return NULL;
    wanted.kind = first->kind;
    wanted.scope = from;
    const struct landmark *own = first_from(k, &wanted);
    bool same = own != NULL && own->kind == first->kind &&
                scope_index(own) == scope_index(&wanted);
    return same ? own : first;
}

const struct landmark *landmark_find(const struct landmarks *k,
                                     struct text name,
                                     const struct scope *from) {
    const struct landmark *found = find(k, LANDMARK_STEP, name, from);
    if (found == NULL || found->kind == LANDMARK_SLUG) {
        const struct landmark *section =
            find(k, LANDMARK_SECTION, lowered(k->arena, name), from);
        if (section != NULL && section->kind == LANDMARK_SECTION)
            return section;
        found = find(k, LANDMARK_GUIDE, name, NULL);
    }
    return found;
}

const struct landmark *landmark_reading(const struct landmarks *k,
                                        struct text id) {
    const struct landmark *found = find(k, LANDMARK_READING, id, NULL);
    return found != NULL && found->kind == LANDMARK_READING ? found : NULL;
}

const struct landmark *landmark_reading_next(const struct landmarks *k,
                                             const struct landmark *row) {
    const struct landmark *next = row + 1;
    bool more = next < k->list + k->count && next->kind == LANDMARK_READING &&
                text_equal(next->name, row->name);
    return more ? next : NULL;
}

const struct landmark *landmark_link(const struct landmarks *k,
                                     struct text name,
                                     const struct scope *from) {
    const struct landmark *found = find(k, LANDMARK_STEP, name, from);
    if (found == NULL || found->kind == LANDMARK_GUIDE)
        found = find(k, LANDMARK_SECTION, lowered(k->arena, name), from);
    return found != NULL && found->kind == LANDMARK_GUIDE ? NULL : found;
}

struct text landmark_nearest(const struct landmarks *k, struct text name,
                             bool link) {
    struct nearest near = nearest_to(name);
    for (size_t i = 0; i < k->count; i++) {
        enum landmark_kind kind = k->list[i].kind;
        bool offered = link ? kind != LANDMARK_GUIDE && kind != LANDMARK_SECTION
                            : kind != LANDMARK_SLUG;
        if (offered)
            nearest_offer(&near, kind == LANDMARK_SECTION ? k->list[i].shown
                                                          : k->list[i].name);
    }
    return (struct text){near.best, near.best_len};
}

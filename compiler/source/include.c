/* include.c - other files of the library: facts and shared steps.
 *
 * A shared file is parsed anew for each use, since each use has its own scope:
 * the same step prints one length here and another there. */
#include "source/include.h"

#include "base/arena.h"
#include "base/diag.h"
#include "source/file.h"
#include "source/kind.h"
#include "source/markdown.h"
#include "source/reading.h"
#include "source/suggest.h"
#include "stages.h"

#include <string.h>

enum {
    CHAIN_MAX = 16,  /* shared files within shared files */
    USES_MAX = 1000, /* in one guide: two files that include each other's users
                        twice would double at each level */
};

static void note_facts(struct reading *r, const struct node *n) {
    for (const struct node *k = n->first; k != NULL; k = k->next) {
        if (k->block != NULL)
            reading_fact(r, k->block);
        note_facts(r, k);
    }
}

static void read_facts(struct reading *r, struct text stem) {
    struct span at = place_of(r->guide->src, stem);
    const char *path = file_path(r->c, "facts", stem);
    if (path != NULL && reading_has_file(r, path) != NULL) {
        diag_add(r->c->diags, DIAG_FILE_TWICE, at, "%s", path);
        return;
    }
    struct source *src = file_read_stem(r->c, "facts", stem, at);
    if (src == NULL) {
        r->guide->incomplete = true;
        return;
    }
    reading_file(r, src);
    /* All facts are one scope to a reader of names; each file has a scope of
     * its own to tell where a slice stands. */
    struct scope *s = arena_alloc(r->c->arena, 1, sizeof *s);
    *s = *r->guide->scopes[0];
    s->src = src;
    const struct node *root =
        markdown_read(r->c, s, KIND_IN_FACTS, &r->guide->incomplete);
    if (root != NULL)
        note_facts(r, root);
    else
        r->guide->incomplete = true;
}

void include_facts(struct reading *r) {
    const struct block *b = r->guide->identity;
    const struct entry *uses = b == NULL ? NULL : tree_setting(b, "uses");
    if (uses == NULL || uses->bad || uses->choice_count == 0)
        return;
    struct text list = uses->choices[0].text;
    size_t from = 0;
    for (size_t i = 0; i <= list.len; i++) {
        if (i < list.len && list.start[i] != ',')
            continue;
        read_facts(r, text_trim(text_part(list, from, i)));
        from = i + 1;
    }
}

/* ---- shared files ---- */

/* Whether `path` is the file that `src` is, or one that led to it. */
static size_t chain_length(const struct source *src, const char *path,
                           bool *cycle) {
    size_t length = 0;
    for (; src != NULL; src = src->included_at.src) {
        *cycle = *cycle || strcmp(src->path, path) == 0;
        length++;
    }
    return length;
}

static bool may_include(struct reading *r, const struct block *b,
                        const char *path) {
    bool cycle = false;
    size_t length = chain_length(b->scope->src, path, &cycle);
    if (cycle)
        diag_add(r->c->diags, DIAG_INCLUDE_CYCLE, b->at, "%s", path);
    else if (length > CHAIN_MAX)
        diag_add(r->c->diags, DIAG_INCLUDE_DEEP, b->at, "more than %d files",
                 (int)CHAIN_MAX);
    else if (r->uses == USES_MAX || r->bytes > FILE_BYTES_MAX)
        diag_add(r->c->diags, DIAG_INCLUDE_MANY, b->at,
                 "more than %d uses, or more than 16 MiB of them",
                 (int)USES_MAX);
    else
        return true;
    return false;
}

/* The file is read once; each use has its own struct source, since a place in
 * it shows the way that led there. */
static struct source *open_shared(struct reading *r, const struct block *b) {
    const char *path = file_path(r->c, "shared", b->name);
    if (path != NULL && !may_include(r, b, path))
        return NULL;
    r->uses++;
    struct span at = place_of(b->scope->src, b->name);
    const struct source *known =
        path == NULL ? NULL : reading_has_file(r, path);
    struct source *src;
    if (known != NULL) {
        src = place_source(r->c->arena, known->path, known->text);
        src->included_at = at;
    } else {
        src = file_read_stem(r->c, "shared", b->name, at);
    }
    if (src == NULL)
        return NULL;
    r->bytes += src->text.len;
    reading_file(r, src);
    return src;
}

static const struct entry *find_key(const struct block *b, struct text key) {
    for (size_t i = 0; b != NULL && i < b->entry_count; i++)
        if (text_equal(b->entries[i].key, key))
            return &b->entries[i];
    return NULL;
}

/* A value passed in whose name is a slip of one that is needed. */
static bool is_meant(const struct block *b, const struct block *needs,
                     struct text key) {
    for (size_t i = 0; i < b->entry_count; i++) {
        struct nearest n = nearest_to(b->entries[i].key);
        nearest_offer(&n, key);
        if (n.best != NULL && find_key(needs, b->entries[i].key) == NULL)
            return true;
    }
    return false;
}

/* What the include passes in, against what the file needs. */
static void check_passed(struct reading *r, const struct block *b,
                         const struct block *needs) {
    for (size_t i = 0; needs != NULL && i < needs->entry_count; i++) {
        const struct entry *e = &needs->entries[i];
        if (e->bad || find_key(b, e->key) != NULL || is_meant(b, needs, e->key))
            continue;
        diag_add(r->c->diags, DIAG_INCLUDE_MISSING, b->at, "%.*s = ... (%.*s)",
                 (int)e->key.len, e->key.start, (int)e->choices[0].text.len,
                 e->choices[0].text.start);
        diag_note(r->c->diags, e->at, "it is needed here");
    }
    for (size_t i = 0; i < b->entry_count; i++) {
        struct text key = b->entries[i].key;
        if (b->entries[i].bad || find_key(needs, key) != NULL)
            continue;
        struct nearest n = nearest_to(key);
        for (size_t k = 0; needs != NULL && k < needs->entry_count; k++)
            nearest_offer(&n, needs->entries[k].key);
        diag_add(r->c->diags, DIAG_INCLUDE_SURPLUS,
                 place_of(b->scope->src, key), "'%.*s'%s", (int)key.len,
                 key.start,
                 suggest(r->c->arena, key, (struct text){n.best, n.best_len}));
    }
}

static const struct block *find_needs(struct reading *r,
                                      const struct node *root) {
    const struct block *needs = NULL;
    for (const struct node *n = root->first; n != NULL; n = n->next) {
        if (n->block == NULL || n->block->kind->id != KIND_NEEDS)
            continue;
        if (needs != NULL)
            diag_add(r->c->diags, DIAG_BLOCK_TWICE, n->block->at,
                     "a shared file has one 'needs'");
        else
            needs = n->block;
    }
    return needs;
}

/* The title of a shared file is for its reader in an editor. */
static void drop_headings(struct reading *r, struct node *root) {
    struct node **link = &root->first;
    bool titled = false;
    root->last = NULL;
    while (*link != NULL) {
        struct node *n = *link;
        if (n->kind != NODE_HEADING) {
            root->last = n;
            link = &n->next;
            continue;
        }
        *link = n->next;
        if (n->level != 1 || titled)
            diag_add(r->c->diags, DIAG_HEADING_PLACE, n->at,
                     "a shared file has a title and no other heading");
        titled = true;
    }
}

/* Puts the children of `from` behind n. Returns the last of them, or n. */
static struct node *splice(struct node *n, struct node *from) {
    if (from->first == NULL)
        return n;
    for (struct node *k = from->first; k != NULL; k = k->next)
        k->parent = n->parent;
    from->last->next = n->next;
    if (n->parent->last == n)
        n->parent->last = from->last;
    n->next = from->first;
    return from->last;
}

static struct node *include_one(struct reading *r, struct node *n) {
    struct block *b = n->block;
    struct source *src = open_shared(r, b);
    if (src == NULL) {
        r->guide->incomplete = true;
        return n;
    }
    const struct scope *s = reading_scope(r, r->guide->scopes[0], src, b);
    struct node *root =
        markdown_read(r->c, s, KIND_IN_SHARED, &r->guide->incomplete);
    if (root == NULL)
        return n;
    if (!r->guide->incomplete)
        check_passed(r, b, find_needs(r, root));
    drop_headings(r, root);
    include_shared(r, root);
    return splice(n, root);
}

void include_shared(struct reading *r, struct node *n) {
    for (struct node *k = n->first; k != NULL; k = k->next) {
        if (k->block != NULL && k->block->kind->id == KIND_INCLUDE)
            k = include_one(r, k);
        else
            include_shared(r, k);
    }
}

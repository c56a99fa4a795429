/* read.c - files -> guide tree: the order in which the parts of source/ work.
 */
#include "source/read.h"

#include "base/arena.h"
#include "base/diag.h"
#include "source/encoding.h"
#include "source/file.h"
#include "source/gallery.h"
#include "source/include.h"
#include "source/job.h"
#include "source/kind.h"
#include "source/markdown.h"
#include "source/outline.h"
#include "source/reading.h"
#include "source/steps.h"
#include "source/template.h"
#include "stages.h"

#include <stdint.h>
#include <string.h>

static const char *stem_of(struct compile *c, const char *path) {
    const char *slash = strrchr(path, '/');
    const char *name = slash == NULL ? path : slash + 1;
    size_t len = strlen(name);
    if (len > 3 && strcmp(name + len - 3, ".md") == 0)
        len -= 3;
    return arena_copy(c->arena, name, len);
}

/* Opens the file and the scopes: [0] for facts, [1] for the file itself. */
static struct reading *begin(struct compile *c, struct source *src) {
    if (src == NULL)
        return NULL;
    struct reading *r = reading_new(c);
    r->guide->src = src;
    r->guide->stem = stem_of(c, src->path);
    reading_file(r, src);
    reading_scope(r, NULL, NULL, NULL);
    return r;
}

static void find_identity(struct reading *r) {
    struct guide *g = r->guide;
    for (const struct node *n = g->root->first; n != NULL; n = n->next) {
        if (n->block == NULL || n->block->kind->id != KIND_GUIDE)
            continue;
        if (g->identity != NULL)
            diag_add(r->c->diags, DIAG_BLOCK_TWICE, n->block->at,
                     "a guide has one 'guide'");
        else
            g->identity = n->block;
    }
    if (g->identity == NULL && !g->incomplete)
        diag_add(r->c->diags, DIAG_GUIDE_MISSING, (struct span){g->src, 0, 0},
                 "write one, with id, revision and status");
}

/* Nobody answers for a released guide that no one approved. */
static void check_released(struct reading *r) {
    const struct block *b = r->guide->identity;
    const struct entry *status = b == NULL ? NULL : tree_setting(b, "status");
    if (status == NULL || status->choice_count == 0 ||
        !text_is(text_trim(status->choices[0].text), "released") ||
        tree_setting(b, "approver") != NULL || b->lost)
        return;
    diag_add(r->c->diags, DIAG_SETTING_MISSING, status->at,
             "a released guide needs 'approver'");
}

static bool has_named(const struct guide *g, enum kind_id kind) {
    for (size_t i = 0; i < g->block_count; i++)
        if (g->blocks[i]->kind->id == kind && g->blocks[i]->node != NULL &&
            g->blocks[i]->name.len > 0)
            return true;
    return false;
}

/* A default that says what one wire, fuse or joint has of its own, where there
 * is none with a name: its name was forgotten. */
static void check_defaults(struct reading *r) {
    static const struct {
        enum kind_id kind;
        const char *setting;
    } own[] = {
        {KIND_WIRE, "load"},
        {KIND_FUSE, "protects"},
        {KIND_TORQUE, "figure"},
    };
    struct guide *g = r->guide;
    bool named[KIND_COUNT];
    for (size_t k = 0; k < KIND_COUNT; k++)
        named[k] = has_named(g, (enum kind_id)k);
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        for (size_t k = 0; k < sizeof own / sizeof own[0]; k++) {
            if (b->kind->id != own[k].kind || named[b->kind->id] ||
                b->node == NULL || tree_setting(b, own[k].setting) == NULL)
                continue;
            diag_add(r->c->diags, DIAG_NAME_MISSING, b->at,
                     "write: %s NAME; one without a name sets defaults for "
                     "others, and there are none",
                     b->kind->name);
            g->incomplete = true;
        }
    }
}

/* `fit`: its bytes and characters are. */
static struct guide *read_guide(struct compile *c, struct source *src,
                                bool fit) {
    struct reading *r = begin(c, src);
    if (r == NULL)
        return NULL;
    struct guide *g = r->guide;
    const struct scope *own = reading_scope(r, g->scopes[0], g->src, NULL);
    g->root = fit ? markdown_read(c, own, KIND_IN_GUIDE, &g->incomplete) : NULL;
    if (g->root != NULL) {
        find_identity(r);
        check_released(r);
        include_facts(r);
        include_shared(r, g->root);
        outline_make(r);
    } else { /* not fit to be read: there is nothing, and that was said */
        g->root = arena_alloc(c->arena, 1, sizeof *g->root);
        g->root->scope = own;
        g->root->at = (struct span){src, 0, 0};
    }
    steps_number(c, g->root);
    reading_index(r);
    check_defaults(r);
    if (c->job != NULL)
        job_join(r);
    gallery_read(c, g);
    return g;
}

struct guide *source_read(struct compile *c, const char *path) {
    return read_guide(c, file_read_given(c, path), true);
}

struct guide *source_read_job(struct compile *c, const struct guide *read) {
    struct reading *r = reading_again(c, read);
    job_join(r);
    return r->guide;
}

struct guide *source_read_made(struct compile *c, struct source *src) {
    return read_guide(c, src, encoding_check(c->diags, src));
}

struct guide *source_read_text(struct compile *c, const char *path,
                               struct text text) {
    return source_read_made(c, place_source(c->arena, path, text));
}

static void note_blocks(struct reading *r, const struct node *n) {
    for (const struct node *k = n->first; k != NULL; k = k->next) {
        if (k->block != NULL)
            reading_fact(r, k->block);
        note_blocks(r, k);
    }
}

/* Their prose is for the reader of the file; only blocks are kept. */
static struct guide *read_blocks(struct compile *c, struct source *src,
                                 unsigned place) {
    struct reading *r = begin(c, src);
    if (r == NULL)
        return NULL;
    struct scope *own = r->guide->scopes[0];
    own->src = r->guide->src;
    const struct node *root =
        markdown_read(c, own, place, &r->guide->incomplete);
    if (root != NULL)
        note_blocks(r, root);
    return r->guide;
}

struct guide *source_read_facts(struct compile *c, const char *path) {
    return read_blocks(c, file_read_given(c, path), KIND_IN_FACTS);
}

struct guide *source_read_catalogue(struct compile *c, struct source *src) {
    return read_blocks(c, src, KIND_IN_CATALOGUE);
}

struct guide *source_read_catalogue_text(struct compile *c, const char *path,
                                         struct text text) {
    struct source *src = place_source(c->arena, path, text);
    if (!encoding_check(c->diags, src))
        src = place_source(c->arena, path, text_of(""));
    return read_blocks(c, src, KIND_IN_CATALOGUE);
}

/* Layout keeps places by the index of a node of the guide; these have none. */
static void forget_places(const struct guide *g) {
    for (size_t i = 0; i < g->node_count; i++)
        g->nodes[i]->index = SIZE_MAX;
}

static struct guide *read_template(struct compile *c, struct source *src) {
    struct reading *r = begin(c, src);
    if (r == NULL)
        return NULL;
    struct guide *g = r->guide;
    g->scopes[0]->src = src;
    g->root = markdown_read(c, g->scopes[0], KIND_IN_TEMPLATE, &g->incomplete);
    if (g->root == NULL)
        return NULL;
    outline_make(r);
    reading_index(r);
    template_check(c, g);
    gallery_read(c, g);
    forget_places(g);
    return g;
}

struct guide *source_read_template(struct compile *c, const char *path) {
    return read_template(c, file_read_given(c, path));
}

struct guide *source_read_template_text(struct compile *c, const char *path,
                                        struct text text) {
    return read_template(c, place_source(c->arena, path, text));
}

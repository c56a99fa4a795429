/* freeze.c - a guide against the revisions of it that were issued. */
#include "library/freeze.h"

#include "base/arena.h"
#include "base/diag.h"
#include "layout/display.h"
#include "library/shelf.h"
#include "source/tree.h"
#include "values/values.h"

#include <string.h>

/* A setting of the guide block, one line; absent when it is not written. */
static struct text setting(struct arena *a, const struct guide *g,
                           const char *name) {
    const struct entry *e =
        g->identity == NULL ? NULL : tree_setting(g->identity, name);
    if (e == NULL || e->choice_count == 0)
        return (struct text){NULL, 0};
    return text_squeezed(a, text_trim(e->choices[0].text));
}

static size_t number(struct text t) {
    size_t n = 0;
    for (size_t i = 0; i < t.len; i++) {
        if (t.start[i] < '0' || t.start[i] > '9' || n > 1000000)
            return 0;
        n = n * 10 + (size_t)(t.start[i] - '0');
    }
    return n;
}

struct issued freeze_head(struct arena *a, const struct guide *g,
                          const struct passages *printed) {
    return (struct issued){.id = setting(a, g, "id"),
                           .guide = text_of(g->stem),
                           .title = text_squeezed(a, g->title),
                           .author = setting(a, g, "author"),
                           .approver = setting(a, g, "approver"),
                           .revision = number(setting(a, g, "revision")),
                           .printed = *printed};
}

static void add_values(struct arena *a, struct values *v, struct issued *out) {
    values_demand_usual(v);
    size_t count = values_count(v);
    struct issued_value *list = arena_alloc(a, count + 1, sizeof *list);
    for (size_t i = 0; i < count; i++) {
        const struct named *n = values_at(v, i);
        const char *printed =
            values_print_over(v, a, n, values_applies(v), PRINT_RANGE);
        if (printed == NULL || n->name.len == 0)
            continue;
        list[out->value_count++] =
            (struct issued_value){n->name, text_squeezed(a, text_of(printed))};
    }
    out->value = list;
}

/* Their paths without the library's root in front. */
static void add_sources(struct arena *a, const char *root,
                        const struct guide *g, struct issued *out) {
    struct file_text *list = arena_alloc(a, g->file_count + 2, sizeof *list);
    list[out->source_count++] = (struct file_text){
        text_of(shelf_from_root(root, g->src->path)), g->src->text};
    for (size_t i = 0; i < g->file_count; i++) {
        bool known = false;
        for (size_t k = 0; k < out->source_count && !known; k++)
            known =
                text_equal(list[k].path,
                           text_of(shelf_from_root(root, g->files[i]->path)));
        if (!known)
            list[out->source_count++] = (struct file_text){
                text_of(shelf_from_root(root, g->files[i]->path)),
                g->files[i]->text};
    }
    out->source = list;
}

struct issued freeze_whole(struct arena *a, const char *root,
                           const struct guide *g, struct values *v,
                           const struct pages *p,
                           const struct passages *printed) {
    struct issued out = freeze_head(a, g, printed);
    out.code = text_of(arena_copy(a, p->code, strlen(p->code)));
    add_values(a, v, &out);
    add_sources(a, root, g, &out);
    return out;
}

bool freeze_is_released(struct arena *a, const struct guide *g) {
    return text_is(setting(a, g, "status"), "released");
}

/* NULL without a message when it was not issued. */
static const struct issued *read_revision(struct compile *c, struct text id,
                                          size_t revision) {
    bool missing;
    const char *path =
        revision == 0 ? NULL : issued_path(c->arena, id, revision);
    return path == NULL ? NULL : issued_read(c, path, &missing);
}

static bool holds(const struct passages *list, const struct passage *p) {
    for (size_t i = 0; i < list->count; i++)
        if (text_reads_same(list->list[i].words, p->words))
            return true;
    return false;
}

/* A passage there is new, or one that was there is gone. */
static bool changed_at(struct text place, const struct passages *was,
                       const struct passages *now) {
    for (size_t i = 0; i < now->count; i++)
        if (text_equal(now->list[i].place, place) && !holds(was, &now->list[i]))
            return true;
    for (size_t i = 0; i < was->count; i++)
        if (text_equal(was->list[i].place, place) && !holds(now, &was->list[i]))
            return true;
    return false;
}

/* What was issued, as another template would have printed it: where nothing
 * changed its own words stand, since a warning may print whole on its pages and
 * in short on those of the usual one. */
static struct passages as_printed_by(struct arena *a,
                                     const struct passages *was,
                                     const struct passages *now,
                                     const struct passages *other) {
    struct passage *list =
        arena_alloc(a, was->count + other->count + 1, sizeof *list);
    struct passages out = {.list = list, .revision = was->revision};
    for (size_t i = 0; i < other->count; i++)
        if (!changed_at(other->list[i].place, was, now))
            list[out.count++] = other->list[i];
    for (size_t i = 0; i < was->count; i++)
        if (changed_at(was->list[i].place, was, now))
            list[out.count++] = was->list[i];
    return out;
}

static bool is_usual(const char *template) {
    return template == NULL || strcmp(template, "shop") == 0;
}

/* By another template than the usual one, which decided what changed. */
static struct pages *layout_otherwise(struct compile *c, const struct guide *g,
                                      const struct values *v,
                                      const struct findings *f,
                                      struct layout_options use,
                                      const struct passages *now) {
    struct passages other;
    const struct passages *was = use.issued;
    use.passages = &other;
    use.issued = NULL;
    struct pages *pages = layout_pages_on(c, g, v, f, &use);
    if (was == NULL || pages == NULL)
        return pages;
    struct passages fitted = as_printed_by(c->arena, was, now, &other);
    use.issued = &fitted;
    return layout_pages_on(c, g, v, f, &use);
}

/* The guide by the usual template, as if it were issued: the difference to what
 * was, or NULL; *pages are NULL after a message. */
static const char *difference(struct compile *c, const struct guide *g,
                              const struct values *v, const struct findings *f,
                              struct layout_options use,
                              const struct issued *own, struct passages *now,
                              struct pages **pages) {
    use.frozen = true;
    use.passages = now;
    use.template = NULL;
    *pages = layout_pages_on(c, g, v, f, &use);
    if (*pages == NULL || own == NULL)
        return NULL;
    struct issued head = freeze_head(c->arena, g, now);
    return issued_difference(c->arena, own, &head);
}

const struct issued *freeze_last(struct compile *c, const struct guide *g) {
    struct passages none = {.list = NULL};
    struct issued head = freeze_head(c->arena, g, &none);
    return read_revision(
        c, head.id,
        issued_before(c->arena, c->library, head.id, head.revision));
}

struct pages *freeze_layout(struct compile *c, const struct guide *g,
                            const struct values *v, const struct findings *f,
                            const struct layout_options *options) {
    struct layout_options use = *options;
    struct passages now = {.list = NULL};
    struct issued head = freeze_head(c->arena, g, &now);
    file_note_folder(c, shelf_place(c->arena, c->library, "procedures/issued"));
    const struct issued *last = freeze_last(c, g);
    const struct issued *own =
        freeze_is_released(c->arena, g) && !options->frozen
            ? read_revision(c, head.id, head.revision)
            : NULL;
    if (diag_status(c->diags) != 0)
        return NULL;
    use.issued = last == NULL ? NULL : &last->printed;
    bool usual = is_usual(use.template);
    if (own == NULL && (usual || last == NULL))
        return layout_pages_on(c, g, v, f, &use);
    struct pages *pages;
    const char *other = difference(c, g, v, f, use, own, &now, &pages);
    use.frozen = use.frozen || (own != NULL && other == NULL);
    if (pages == NULL)
        return NULL;
    if (other != NULL)
        diag_add(c->diags, DIAG_ISSUED_OTHERWISE, g->identity->at,
                 "revision %zu of %.*s was issued with another text, first at "
                 "%s; a change makes the next revision",
                 head.revision, (int)head.id.len, head.id.start, other);
    if (!usual)
        return layout_otherwise(c, g, v, f, use, &now);
    if (options->passages != NULL)
        *options->passages = now;
    return use.frozen ? pages : layout_pages_on(c, g, v, f, &use);
}

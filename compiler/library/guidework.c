/* guidework.c - one guide through the stages, as far as a command wants. */
#include "library/guidework.h"

#include "base/arena.h"
#include "base/diag.h"
#include "library/early.h"
#include "library/faces.h"
#include "library/freeze.h"
#include "library/shelf.h"
#include "source/tree.h"

struct guidework *guidework_run(const char *root, const char *path,
                                enum stage last,
                                const struct layout_options *options) {
    return guidework_do(&(struct guidework_task){
        .root = root, .path = path, .last = last, .options = options});
}

/* What the revision issued before says for the same vehicle, by its own sources
 * and as this template prints them. NULL: there is none, or it knew no such
 * vehicle, or does not hold any more. */
static const struct passages *printed_before(const struct guidework_task *t,
                                             struct compile *c,
                                             const struct guide *g) {
    const struct issued *last = freeze_last(c, g);
    if (last == NULL)
        return NULL;
    struct passages found = {.list = NULL};
    struct layout_options options = {.paper = t->options->paper,
                                     .template = t->options->template,
                                     .passages = &found};
    struct file_texts sources = {last->source, last->source_count};
    const char *path = text_cstr(c->arena, last->source[0].path);
    struct guidework *then = guidework_do(&(struct guidework_task){
        .root = t->root,
        .path = shelf_place(c->arena, t->root, path),
        .only = t->only,
        .last = STAGE_LAYOUT,
        .options = &options,
        .faces = t->faces,
        .issued = &sources,
    });
    const struct passages *kept =
        then->pages == NULL || guidework_status(then) != 0
            ? NULL
            : layout_passages(c->arena, &found);
    guidework_end(then);
    return kept;
}

/* For one vehicle, with bars against what was issued for it; what is asked for
 * its passages is itself compared with nothing. */
static struct pages *lay_out_one(const struct guidework_task *t,
                                 struct guidework *w) {
    struct compile *c = &w->compile;
    struct layout_options use = *t->options;
    if (use.passages == NULL)
        use.issued = printed_before(t, c, w->guide);
    if (diag_status(c->diags) != 0)
        return NULL;
    return layout_pages_on(c, w->guide, w->values, w->findings, &use);
}

/* The pages of any guide, and of a job. */
static struct pages *lay_out(const struct guidework_task *t,
                             struct guidework *w) {
    struct compile *c = &w->compile;
    if (t->job != NULL)
        return layout_pages_on(c, w->guide, w->values, w->findings, t->options);
    if (t->only != NULL)
        return lay_out_one(t, w);
    return freeze_layout(c, w->guide, w->values, w->findings, t->options);
}

struct guidework *guidework_do(const struct guidework_task *t) {
    enum stage last = t->last;
    struct arena *arena = arena_new();
    struct guidework *w = arena_alloc(arena, 1, sizeof *w);
    w->compile = (struct compile){.arena = arena,
                                  .diags = diag_new(arena),
                                  .hand = t->hand,
                                  .only = t->only,
                                  .job = t->job,
                                  .issued = t->issued,
                                  .library = t->root,
                                  .catalogue = t->catalogue};
    w->compile.reads = &w->reads;
    w->path = t->path;
    w->root = t->root;
    struct compile *c = &w->compile;
    w->early = early_begin(c);
    w->guide = t->guide == NULL ? source_read(c, t->path)
                                : source_read_job(c, t->guide);
    if (w->guide == NULL || w->guide->incomplete || last == STAGE_SOURCE)
        return w;
    w->values = values_evaluate(c, w->guide);
    if (last == STAGE_VALUES)
        return w;
    early_check(w->early, c);
    w->findings = checks_run(c, w->guide, w->values);
    if (last == STAGE_CHECKS || diag_status(c->diags) != 0)
        return w;
    w->sound = true;
    c->shapes = faces_lend(t->faces);
    w->pages = lay_out(t, w);
    faces_return(t->faces, c->shapes); /* its own are not kept */
    c->shapes = NULL;
    if (w->pages == NULL || last == STAGE_LAYOUT || diag_status(c->diags) != 0)
        return w;
    c->subsets = faces_lend_subsets(t->faces);
    w->pdf = print_pdf(c, w->pages, &w->pdf_len);
    faces_return_subsets(t->faces, c->subsets);
    c->subsets = NULL;
    return w;
}

int guidework_status(const struct guidework *w) {
    return diag_status(w->compile.diags);
}

void guidework_end(struct guidework *w) {
    early_end(w->early);
    arena_free(w->compile.arena);
}

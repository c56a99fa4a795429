/* guidework.c - one guide through the stages, as far as a command wants. */
#include "library/guidework.h"

#include "base/arena.h"
#include "base/diag.h"
#include "library/faces.h"
#include "library/freeze.h"
#include "source/tree.h"

struct guidework *guidework_run(const char *root, const char *path,
                                enum stage last,
                                const struct layout_options *options) {
    return guidework_do(&(struct guidework_task){
        .root = root, .path = path, .last = last, .options = options});
}

struct guidework *guidework_do(const struct guidework_task *t) {
    enum stage last = t->last;
    struct arena *arena = arena_new();
    struct guidework *w = arena_alloc(arena, 1, sizeof *w);
    w->compile = (struct compile){.arena = arena,
                                  .diags = diag_new(arena),
                                  .only = t->only,
                                  .job = t->job,
                                  .issued = t->issued,
                                  .library = t->root,
                                  .catalogue = t->catalogue};
    w->compile.reads = &w->reads;
    w->path = t->path;
    w->root = t->root;
    struct compile *c = &w->compile;
    w->guide = t->guide == NULL ? source_read(c, t->path)
                                : source_read_job(c, t->guide);
    if (w->guide == NULL || w->guide->incomplete || last == STAGE_SOURCE)
        return w;
    w->values = values_evaluate(c, w->guide);
    if (last == STAGE_VALUES)
        return w;
    w->findings = checks_run(c, w->guide, w->values);
    if (last == STAGE_CHECKS || diag_status(c->diags) != 0)
        return w;
    c->shapes = faces_lend(t->faces);
    w->pages =
        (t->only != NULL || t->job != NULL ? layout_pages_on : freeze_layout)(
            c, w->guide, w->values, w->findings, t->options);
    faces_return(t->faces, c->shapes);
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
    arena_free(w->compile.arena);
}

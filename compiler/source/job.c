/* job.c - job files: a guide carried out on one vehicle. */
#include "source/job.h"

#include "base/arena.h"
#include "base/diag.h"
#include "source/kind.h"
#include "source/markdown.h"
#include "source/reading.h"
#include "stages.h"

/* The blocks below a node go into the reading; the first job is kept. */
static const struct block *note_jobs(struct reading *r, const struct node *n,
                                     const struct block *job) {
    for (const struct node *k = n->first; k != NULL; k = k->next) {
        if (k->block != NULL) {
            reading_fact(r, k->block);
            if (job != NULL)
                diag_add(r->c->diags, DIAG_BLOCK_TWICE, k->block->at,
                         "a file holds one 'job'");
            else
                job = k->block;
        }
        job = note_jobs(r, k, job);
    }
    return job;
}

static const struct block *read_into(struct reading *r, struct source *src,
                                     struct scope *scope) {
    const struct node *root =
        markdown_read(r->c, scope, KIND_IN_JOB, &r->guide->incomplete);
    const struct block *job = root == NULL ? NULL : note_jobs(r, root, NULL);
    if (job == NULL && !r->guide->incomplete)
        diag_add(r->c->diags, DIAG_JOB_MISSING, (struct span){src, 0, 0},
                 "write one, with number, guide and date");
    return job;
}

const struct block *job_read(struct compile *c, struct source *src) {
    if (src == NULL)
        return NULL;
    struct reading *r = reading_new(c);
    reading_file(r, src);
    struct scope *scope = reading_scope(r, NULL, src, NULL);
    return read_into(r, src, scope);
}

void job_join(struct reading *r) {
    struct source *src = r->c->job;
    reading_file(r, src);
    struct scope *scope = reading_scope(r, r->guide->scopes[1], src, NULL);
    r->guide->job = read_into(r, src, scope);
}

struct text job_setting(struct arena *a, const struct block *job,
                        const char *name) {
    const struct entry *e = tree_setting(job, name);
    if (e == NULL || e->choice_count == 0)
        return (struct text){NULL, 0};
    struct text t = text_trim(text_squeezed(a, e->choices[0].text));
    bool quoted = t.len >= 2 && t.start[0] == '"' && t.start[t.len - 1] == '"';
    return quoted ? text_part(t, 1, t.len - 1) : t;
}

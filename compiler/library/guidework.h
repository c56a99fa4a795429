/* guidework.h - one guide through the stages, as far as a command wants. */
#ifndef GUIDEWORK_H
#define GUIDEWORK_H

#include "layout/layout.h"
#include "source/file.h"
#include "stages.h"

/* What the stages left. Parts that were not reached are NULL. */
struct guidework {
    struct compile compile;
    struct file_reads reads; /* what was read for it */
    const char *path;        /* of the source */
    const char *root;        /* its library */
    bool sound; /* read, computed and checked without a fault: a later one is
                   of its pages by one template */
    struct guide *guide;
    struct values *values;
    struct findings *findings;
    struct pages *pages;
    const unsigned char *pdf;
    size_t pdf_len;
    struct early *early; /* what its stages use; or NULL */
};

enum stage {
    STAGE_SOURCE,
    STAGE_VALUES,
    STAGE_CHECKS,
    STAGE_LAYOUT,
    STAGE_PRINT
};

/* Runs the stages up to `last`. A mistake in one does not keep the next from
 * looking, up to the checks; layout and print need a guide without errors. The
 * caller frees all with guidework_end(). */
struct guidework *guidework_run(const char *root, const char *path,
                                enum stage last,
                                const struct layout_options *options);
/* The same with more to say. For one vehicle `options->frozen` is the combined
 * guide's. */
struct guidework_task {
    const char *root, *path;
    const struct guide
        *guide;         /* that was read from there, or NULL: for a job */
    const char *only;   /* compile.only */
    struct source *job; /* compile.job */
    enum stage last;
    const struct layout_options *options;
    const struct catalogue *catalogue; /* compile.catalogue */
    const struct file_texts *issued;   /* compile.issued */
    struct faces *faces; /* shared with other guides; NULL: none is */
    struct hand *hand;   /* compile.hand */
};
struct guidework *guidework_do(const struct guidework_task *t);
int guidework_status(const struct guidework *w);
void guidework_end(struct guidework *w);

#endif

/* stages.h - the page to read first: how a guide becomes a PDF.
 *
 * A guide is Markdown with calculation blocks. It is compiled in five stages,
 * in this order; each fills in what the next one reads, none looks ahead:
 *
 *   source_read       files -> guide tree, every node with its place
 *   values_evaluate   names, units, ranges, decisions, for each variant
 *   checks_run        requirements that must hold; cautions called for
 *   layout_pages      tree + values + cautions -> pages, a display list
 *   print_pdf         display list -> PDF
 *
 * No stage prints. Each adds to the list of diagnostics and carries on as far
 * as it can; layout starts only when nothing failed. All that the stages make
 * lives in one arena and is freed whole. There is no global state.
 */
#ifndef STAGES_H
#define STAGES_H

#include <stdbool.h>
#include <stdio.h>

struct arena;
struct catalogue;
struct file_reads;
struct file_texts;
struct source;
struct diags;
struct guide;
struct values;
struct findings;
struct hand;
struct pages;
struct shape_kept;
struct subset_kept;

struct compile {
    struct arena *arena; /* owns everything the stages make */
    struct diags *diags; /* everything the author will be told */
    bool single;         /* one calculation: no circuit around it to judge */
    struct hand *hand;   /* that has nothing else to do; or NULL */
    const char *only;    /* variant, model year or identification number that it
                            is compiled for; NULL: all that apply */
    struct source *job;  /* of the job that it is compiled for, or NULL */
    const struct file_texts
        *issued;              /* that are read in place of files; or NULL */
    struct file_reads *reads; /* gathers what files were read; or NULL */
    const char
        *library; /* folder that holds procedures/, as the user names it */
    const struct catalogue *catalogue; /* of hazards, where it was read before;
                                          NULL: the checks read it */
    struct shape_kept *shapes; /* words that guides before it shaped; or NULL */
    struct subset_kept *subsets; /* of faces, that they embedded; or NULL */
};

struct guide *source_read(struct compile *c, const char *path);
/* The guide of c->job, which was read before without a job: what both have is
 * the first one's, and no stage changes it, so that many jobs may share it. */
struct guide *source_read_job(struct compile *c, const struct guide *read);
struct values *values_evaluate(struct compile *c, const struct guide *g);
struct findings *checks_run(struct compile *c, const struct guide *g,
                            const struct values *v);
struct pages *layout_pages(struct compile *c, const struct guide *g,
                           const struct values *v, const struct findings *f);
/* The finished file in memory (in the arena); NULL after a diagnostic. */
const unsigned char *print_pdf(struct compile *c, const struct pages *p,
                               size_t *len);

#endif

/* shelf.h - the folders of a library: where guides lie and PDFs go. */
#ifndef SHELF_H
#define SHELF_H

#include <stddef.h>

struct arena;

/* The library that the work is done in: the nearest folder, from the current
 * one upward, that holds procedures/. As a path that leads there from here: "."
 * or "../..". NULL when there is none. */
const char *shelf_root(struct arena *a);
/* The library of a guide that was named by a path with /procedures/ in it, else
 * `root`. */
const char *shelf_root_of(struct arena *a, const char *root, const char *guide);
/* A path from the library's root as one would type it here, and back. */
const char *shelf_place(struct arena *a, const char *root, const char *path);
const char *shelf_from_root(const char *root, const char *path);
/* The file of a GUIDE argument: as it is when it exists or ends in .md, else
 * ROOT/procedures/GUIDE.md. */
const char *shelf_guide(struct arena *a, const char *root, const char *guide);
/* ROOT/procedures/ *.md in the order of their names. */
size_t shelf_guides(struct arena *a, const char *root,
                    const char *const **list);
/* The same of job files: ROOT/procedures/jobs/JOB.md. */
const char *shelf_job(struct arena *a, const char *root, const char *job);
size_t shelf_jobs(struct arena *a, const char *root, const char *const **list);
size_t shelf_templates(struct arena *a, const char *root,
                       const char *const **list);
/* Tables of jobs: procedures/jobs/NAME.csv. */
size_t shelf_fleets(struct arena *a, const char *root,
                    const char *const **list);
/* The table of jobs by that name: as it is where it exists or has a folder,
 * else in procedures/jobs/. */
const char *shelf_fleet(struct arena *a, const char *root, const char *fleet);
/* ROOT/build/jobs/STEM.pdf; STEM.TEMPLATE.pdf for another than `owner`. */
const char *shelf_sheet(struct arena *a, const char *root, const char *stem,
                        const char *template);
/* The name of a guide's file without folder and ending: that of its PDF. */
const char *shelf_stem(struct arena *a, const char *guide);
/* ROOT/build/STEM.pdf, without a leading "./"; STEM.TEMPLATE.pdf for another
 * template than the usual one (NULL or "shop"). */
const char *shelf_pdf(struct arena *a, const char *root, const char *stem,
                      const char *template);
/* The PDFs of a guide that are there, by all templates and for all vehicles, in
 * the order of their names. */
size_t shelf_pdfs(struct arena *a, const char *root, const char *stem,
                  const char *const **list);

#endif

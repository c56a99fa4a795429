/* sheetwork.h - jobs through the stages: what `sheet` does with them once it
 * has read them, from files or from a table. */
#ifndef SHEETWORK_H
#define SHEETWORK_H

#include "base/text.h"
#include "command/command.h"
#include "command/result.h"
#include "stages.h"

struct arena;
struct block;
struct fleet;
struct sheetwork;
struct source;
struct basis;

/* A job that was read; the caller's until sheetwork_print() is done with it. */
struct sheet_job {
    const char *name; /* for messages: its file, or its row */
    const char *stem; /* of its PDF */
    struct source *source;
    struct compile compile; /* of the job alone */
    const struct block *block;
    const struct basis *basis;
    int status;
};

enum { SHEETS_TOGETHER = 64 }; /* rows that are computed and synced at once */

/* A job of a file: its path, or its name in procedures/jobs/. All lives in `a`.
 */
void sheetwork_file(const struct request *r, struct arena *a,
                    struct sheet_job *j, const char *word);
/* The next rows of a table, SHEETS_TOGETHER at most; how many. One that is bad
 * is among them, with its message. All lives in `a`. */
size_t sheetwork_rows(const struct request *r, struct fleet *f, struct arena *a,
                      struct sheet_job *job);

struct sheetwork *sheetwork_open(const struct request *r);
/* Whether the template of the sheets is sound, before any is touched; the exit
 * status, after messages about it. */
int sheetwork_check(const struct sheetwork *w);
struct text sheetwork_number(const struct sheet_job *j);
/* A number as the name of a file: letters, digits, - and _ stay. */
const char *sheetwork_stem(struct arena *a, struct text number);
/* Prints the sheets of those without a mistake so far, in their order, and says
 * what came of all; the worst status. `results`: NULL, or for other programs.
 * What they leave is synced together, while the next ones are computed. */
int sheetwork_print(struct sheetwork *w, struct sheet_job *job, size_t count,
                    struct results *results);
/* The first of the jobs whose sheet has this code; `count`: none. Says nothing
 * of those that are refused. */
size_t sheetwork_coded(struct sheetwork *w, struct sheet_job *job, size_t count,
                       const char *code);
/* The revision that its sheet is of; *old: the guide has another one now. */
size_t sheetwork_revision(const struct sheet_job *j, bool *old);
/* Once all are on the disk; the status of the last that had to get there. */
int sheetwork_end(struct sheetwork *w);

#endif

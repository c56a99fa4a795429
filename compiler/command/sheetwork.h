/* sheetwork.h - jobs through the stages: what `sheet` does with them once it
 * has read them, from files or from a table. */
#ifndef SHEETWORK_H
#define SHEETWORK_H

#include "base/text.h"
#include "command/command.h"
#include "command/result.h"
#include "stages.h"

struct block;
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

struct sheetwork *sheetwork_open(const struct request *r);
/* Its block; the status and the messages are the job's. */
void sheetwork_read(struct sheet_job *j, struct source *src);
struct text sheetwork_number(const struct sheet_job *j);
/* Prints the sheets of those without a mistake so far, in their order, and says
 * what came of all; the worst status. `results`: NULL, or for other programs.
 * What they leave is synced together. */
int sheetwork_print(struct sheetwork *w, struct sheet_job *job, size_t count,
                    struct results *results);
void sheetwork_end(struct sheetwork *w);

#endif

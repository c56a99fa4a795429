/* command_sheet.c - sheet: what owners keep of jobs, from files or a table. */
#include "base/arena.h"
#include "base/diag.h"
#include "base/shown.h"
#include "command/command.h"
#include "command/jobwalk.h"
#include "library/fleet.h"
#include "library/shelf.h"
#include "source/tree.h"

#include <string.h>

static void report_twice(struct sheet_job *j, const char *why) {
    struct text number = sheetwork_number(j);
    diag_add(j->compile.diags, DIAG_JOB_TWICE,
             tree_setting(j->block, "number")->at, "%.*s %s", (int)number.len,
             number.start, why);
    j->status = diag_status(j->compile.diags);
}

/* --- from files --- */

/* Against the others of the library, those that are not asked for among them.
 */
static void check_numbers(const struct request *r, struct sheet_job *job,
                          size_t count) {
    for (struct jobwalk all = jobwalk_start(r); jobwalk_next(&all);) {
        struct text number = sheetwork_number(&all.job);
        for (size_t k = 0; k < count && number.len > 0; k++)
            if (job[k].block != NULL && job[k].status == STATUS_GOOD &&
                strcmp(all.job.stem, job[k].stem) != 0 &&
                text_equal(number, sheetwork_number(&job[k])))
                report_twice(&job[k],
                             arena_printf(job[k].compile.arena,
                                          "is that of %s too", all.job.name));
    }
}

static int print_files(const struct request *r, struct sheetwork *w,
                       struct results *results) {
    size_t count = r->word_count;
    struct sheet_job *job = arena_alloc(r->arena, count, sizeof *job);
    for (size_t i = 0; i < count; i++)
        sheetwork_file(r, r->arena, &job[i], r->word[i]);
    check_numbers(r, job, count);
    return sheetwork_print(w, job, count, results);
}

/* --- from a table --- */

/* By the library's own jobs, so that a row has none of them: the names of the
 * files that they print to, of which two numbers may have one. */
static struct shown *taken_of(const struct request *r) {
    struct shown *taken = shown_new(r->arena);
    for (struct jobwalk all = jobwalk_start(r); jobwalk_next(&all);) {
        struct text number = sheetwork_number(&all.job);
        if (number.len > 0)
            shown_before(
                taken, text_of(sheetwork_stem(all.job.compile.arena, number)));
        shown_before(taken, text_of(all.job.stem));
    }
    return taken;
}

/* No row has the number of another, or of a job of the library, be they wrong
 * otherwise or not: the sheet of that name is not this row's to withdraw. */
static void check_rows(struct shown *taken, struct sheet_job *job,
                       size_t count) {
    for (size_t i = 0; i < count; i++) {
        struct text number = sheetwork_number(&job[i]);
        if (number.len == 0 || !shown_before(taken, text_of(job[i].stem)))
            continue;
        report_twice(&job[i],
                     arena_printf(job[i].compile.arena,
                                  "is that of another row, or of a job in "
                                  "procedures/jobs/, too, or prints to the "
                                  "same file, %s.pdf",
                                  job[i].stem));
        job[i].stem = NULL;
    }
}

static int print_fleet(const struct request *r, struct sheetwork *w,
                       struct results *results) {
    struct compile c = {
        .arena = r->arena, .diags = diag_new(r->arena), .library = r->root};
    struct fleet *f = fleet_open(&c, shelf_fleet(r->arena, r->root, r->fleet));
    if (f == NULL) {
        diag_print(c.diags, stderr, r->colour);
        return diag_status(c.diags);
    }
    struct shown *taken = taken_of(r);
    struct sheet_job job[SHEETS_TOGETHER];
    int worst = STATUS_GOOD;
    size_t rows = 0;
    for (size_t count = SHEETS_TOGETHER; count == SHEETS_TOGETHER;) {
        struct arena *own = arena_new();
        count = sheetwork_rows(r, f, own, job);
        check_rows(taken, job, count);
        rows += count;
        int status =
            count == 0 ? STATUS_GOOD : sheetwork_print(w, job, count, results);
        worst = status > worst ? status : worst;
        arena_free(own);
    }
    fleet_close(f);
    if (rows == 0)
        return command_usage("%s names columns, and has no row below them",
                             r->fleet);
    return worst;
}

int command_sheet(const struct request *r) {
    if ((r->fleet == NULL) == (r->word_count == 0))
        return command_usage(
            r->fleet == NULL
                ? "sheet of which job? name one of procedures/jobs/, or write "
                  "--from=TABLE.csv"
                : "--from=TABLE.csv goes without the names of jobs");
    for (size_t i = 0; i < r->word_count; i++)
        if (!command_is_plain(r->word[i]))
            return command_usage("no plain text: '%s'", r->word[i]);
    struct sheetwork *w = sheetwork_open(r);
    struct results *results = r->json ? result_begin() : NULL;
    int status = sheetwork_check(w);
    if (status == STATUS_GOOD)
        status = r->fleet == NULL ? print_files(r, w, results)
                                  : print_fleet(r, w, results);
    int last = sheetwork_end(w);
    if (results != NULL)
        result_end(results, stdout);
    return last > status ? last : status;
}

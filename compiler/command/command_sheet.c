/* command_sheet.c - sheet: what owners keep of jobs, from files or a table. */
#include "base/arena.h"
#include "base/diag.h"
#include "base/shown.h"
#include "command/command.h"
#include "command/sheetwork.h"
#include "library/fleet.h"
#include "library/shelf.h"
#include "source/file.h"
#include "source/job.h"
#include "source/tree.h"

#include <string.h>

/* Rows that are computed and synced together. */
enum { TOGETHER = 64 };

static void report_twice(struct sheet_job *j, const char *other) {
    struct text number = sheetwork_number(j);
    diag_add(j->compile.diags, DIAG_JOB_TWICE,
             tree_setting(j->block, "number")->at, "%.*s is that of %s too",
             (int)number.len, number.start, other);
    j->status = STATUS_USAGE;
}

/* --- from files --- */

static void read_file(const struct request *r, struct sheet_job *j,
                      const char *word) {
    j->name = shelf_job(r->arena, r->root, word);
    j->stem = shelf_stem(r->arena, j->name);
    j->compile = (struct compile){
        .arena = r->arena, .diags = diag_new(r->arena), .library = r->root};
    sheetwork_read(j, file_read_given(&j->compile, j->name));
}

/* Against the others of the library, those that are not asked for among them.
 */
static void check_numbers(const struct request *r, struct sheet_job *job,
                          size_t count) {
    const char *const *all;
    size_t there = shelf_jobs(r->arena, r->root, &all);
    for (size_t i = 0; i < there; i++) {
        struct arena *own = arena_new();
        struct sheet_job other = {.compile = {.arena = own,
                                              .diags = diag_new(own),
                                              .library = r->root},
                                  .stem = shelf_stem(own, all[i])};
        sheetwork_read(&other, file_read_given(&other.compile, all[i]));
        struct text number = sheetwork_number(&other);
        for (size_t k = 0; k < count && number.len > 0; k++)
            if (job[k].block != NULL && job[k].status == STATUS_GOOD &&
                strcmp(other.stem, job[k].stem) != 0 &&
                text_equal(number, sheetwork_number(&job[k])))
                report_twice(&job[k], all[i]);
        arena_free(own);
    }
}

static int print_files(const struct request *r, struct sheetwork *w,
                       struct results *results) {
    size_t count = r->word_count;
    struct sheet_job *job = arena_alloc(r->arena, count, sizeof *job);
    for (size_t i = 0; i < count; i++)
        read_file(r, &job[i], r->word[i]);
    check_numbers(r, job, count);
    return sheetwork_print(w, job, count, results);
}

/* --- from a table --- */

/* Of the library's own jobs, so that a row has none of them. */
static struct shown *numbers_of(const struct request *r) {
    struct shown *numbers = shown_new(r->arena);
    const char *const *all;
    size_t there = shelf_jobs(r->arena, r->root, &all);
    for (size_t i = 0; i < there; i++) {
        struct arena *own = arena_new();
        struct sheet_job j = {.compile = {.arena = own,
                                          .diags = diag_new(own),
                                          .library = r->root}};
        sheetwork_read(&j, file_read_given(&j.compile, all[i]));
        if (sheetwork_number(&j).len > 0)
            shown_before(numbers, sheetwork_number(&j));
        arena_free(own);
    }
    return numbers;
}

/* A number as the name of a file: letters, digits, - and _ stay. */
static const char *stem_of(struct arena *a, struct text number) {
    char *out = arena_copy(a, number.start, number.len);
    for (char *c = out; *c != '\0'; c++)
        if (!((*c >= '0' && *c <= '9') || (*c >= 'a' && *c <= 'z') ||
              (*c >= 'A' && *c <= 'Z') || *c == '-' || *c == '_'))
            *c = '-';
    return out;
}

/* The next rows; how many. A row that is bad is among them, with its message.
 */
static size_t read_rows(const struct request *r, struct fleet *f,
                        struct arena *a, struct shown *numbers,
                        struct sheet_job *job) {
    size_t count = 0;
    for (bool end = false; count < TOGETHER; count++) {
        struct sheet_job *j = &job[count];
        *j = (struct sheet_job){
            .compile = {.arena = a, .diags = diag_new(a), .library = r->root}};
        size_t row;
        struct source *src = fleet_next(f, &j->compile, &row, &end);
        if (end)
            break;
        j->name = arena_printf(a, "%s row %zu", r->fleet, row);
        sheetwork_read(j, src);
        struct text number = sheetwork_number(j);
        if (number.len > 0)
            j->stem = stem_of(a, number);
        if (j->status == STATUS_GOOD && number.len > 0 &&
            shown_before(numbers, number))
            report_twice(j, "another row, or of a job in procedures/jobs/,");
    }
    return count;
}

static int print_fleet(const struct request *r, struct sheetwork *w,
                       struct results *results) {
    struct compile c = {
        .arena = r->arena, .diags = diag_new(r->arena), .library = r->root};
    struct fleet *f = fleet_open(&c, r->fleet);
    if (f == NULL) {
        diag_print(c.diags, stderr, r->colour);
        return diag_status(c.diags);
    }
    struct shown *numbers = numbers_of(r);
    struct sheet_job job[TOGETHER];
    int worst = STATUS_GOOD;
    for (size_t count = TOGETHER; count == TOGETHER;) {
        struct arena *own = arena_new();
        count = read_rows(r, f, own, numbers, job);
        int status =
            count == 0 ? STATUS_GOOD : sheetwork_print(w, job, count, results);
        worst = status > worst ? status : worst;
        arena_free(own);
    }
    fleet_close(f);
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
    struct results *results = r->json ? result_begin() : NULL;
    struct sheetwork *w = sheetwork_open(r);
    int status = r->fleet == NULL ? print_files(r, w, results)
                                  : print_fleet(r, w, results);
    sheetwork_end(w);
    if (results != NULL)
        result_end(results, stdout);
    return status;
}

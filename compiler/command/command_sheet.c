/* command_sheet.c - sheet: jobs through the stages, for their owners.
 *
 * Each job is a guide computed again with the figures of one vehicle. The guide
 * itself must hold first, once for all its jobs; of a revision that is not the
 * one in procedures/ the sources are those that were issued. */
#include "base/arena.h"
#include "base/diag.h"
#include "base/shown.h"
#include "command/command.h"
#include "command/result.h"
#include "layout/display.h"
#include "library/crew.h"
#include "library/freeze.h"
#include "library/guidework.h"
#include "library/issued.h"
#include "library/shelf.h"
#include "library/store.h"
#include "source/job.h"
#include "source/suggest.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

/* A guide in one revision, and whether its jobs can be computed. */
struct basis {
    const char *path;
    struct text revision; /* as jobs ask for it; absent: as it stands */
    struct guidework *work;
    struct file_texts issued;
    bool old, frozen;
    int status;
};

struct job {
    const char *path, *stem;
    struct compile compile; /* of the job file alone */
    const struct block *block;
    const struct basis *basis; /* NULL: it cannot be computed */
    int status;
};

struct run {
    const struct request *r;
    struct layout_options layout;
    struct job *job;
    size_t count;
    struct basis *basis;
    size_t basis_count;
    struct shown *shown;
};

static void tell(const struct run *run, struct diags *d) {
    diag_print_new(d, run->shown, stderr, run->r->colour);
}

/* --- the job files --- */

static struct text number_of(const struct job *j) {
    return job_setting(j->compile.arena, j->block, "number");
}

static void read_job(struct run *run, struct job *j, const char *word) {
    struct arena *a = run->r->arena;
    j->path = shelf_job(a, run->r->root, word);
    j->stem = shelf_stem(a, j->path);
    j->compile = (struct compile){
        .arena = a, .diags = diag_new(a), .library = run->r->root};
    j->block = job_read(&j->compile, j->path);
    j->status = diag_status(j->compile.diags);
}

static void report_twice(struct job *j, const char *other) {
    diag_add(j->compile.diags, DIAG_JOB_TWICE,
             tree_setting(j->block, "number")->at, "%.*s is that of %s too",
             (int)number_of(j).len, number_of(j).start, other);
    j->status = STATUS_USAGE;
}

/* Against the others of the library, those that are not asked for among them.
 */
static void check_numbers(struct run *run) {
    const char *const *all;
    size_t count = shelf_jobs(run->r->arena, run->r->root, &all);
    for (size_t i = 0; i < count; i++) {
        struct arena *own = arena_new();
        struct compile c = {
            .arena = own, .diags = diag_new(own), .library = run->r->root};
        const struct block *b = job_read(&c, all[i]);
        struct text number =
            b == NULL ? (struct text){NULL, 0} : job_setting(own, b, "number");
        for (size_t k = 0; k < run->count && number.len > 0; k++) {
            struct job *j = &run->job[k];
            if (j->block != NULL && j->status == STATUS_GOOD &&
                strcmp(shelf_stem(own, all[i]), j->stem) != 0 &&
                text_equal(number, number_of(j)))
                report_twice(j, all[i]);
        }
        arena_free(own);
    }
}

/* --- the guides --- */

/* The issued sources; false after a message at the job. */
static bool take_issued(struct run *run, struct job *j, struct basis *b,
                        const struct guide *g) {
    struct arena *a = run->r->arena;
    struct passages none = {0};
    struct issued now = freeze_head(a, g, &none);
    size_t revision = 0;
    for (size_t i = 0; i < b->revision.len && revision < 1000000; i++) {
        char digit = b->revision.start[i];
        if (digit < '0' || digit > '9')
            break;
        revision = revision * 10 + (size_t)(digit - '0');
    }
    const char *path = issued_path(a, now.id, revision);
    bool missing = true;
    const struct issued *was =
        path == NULL || revision == 0
            ? NULL
            : issued_read(&j->compile, issued_place(a, run->r->root, path),
                          &missing);
    if (was == NULL) {
        if (missing)
            diag_add(j->compile.diags, DIAG_JOB_REVISION,
                     tree_setting(j->block, "revision")->at,
                     "'%.*s'; %s is at revision %zu, and that one was not "
                     "issued",
                     (int)b->revision.len, b->revision.start, b->path,
                     now.revision);
        return false;
    }
    b->old = b->frozen = true;
    b->issued = (struct file_texts){was->source, was->source_count};
    return true;
}

static struct guidework *whole(const struct run *run, const struct basis *b) {
    struct layout_options options = run->layout;
    options.template = NULL;
    return guidework_do(
        &(struct guidework_task){.root = run->r->root,
                                 .path = b->path,
                                 .last = STAGE_LAYOUT,
                                 .options = &options,
                                 .issued = b->old ? &b->issued : NULL});
}

/* The guide must hold for all its vehicles before it is used for one. */
static void open_basis(struct run *run, struct job *j, struct basis *b) {
    struct guidework *now =
        guidework_do(&(struct guidework_task){.root = run->r->root,
                                              .path = b->path,
                                              .last = STAGE_SOURCE,
                                              .options = &run->layout});
    b->status = guidework_status(now);
    struct passages none = {0};
    size_t revision =
        b->status != STATUS_GOOD || now->guide == NULL
            ? 0
            : freeze_head(run->r->arena, now->guide, &none).revision;
    const char *wanted = text_cstr(run->r->arena, b->revision);
    const char *stands = arena_printf(run->r->arena, "%zu", revision);
    if (b->status != STATUS_GOOD)
        tell(run, now->compile.diags);
    else if (b->revision.len > 0 && strcmp(wanted, stands) != 0 &&
             !take_issued(run, j, b, now->guide))
        b->status = STATUS_USAGE;
    guidework_end(now);
    if (b->status != STATUS_GOOD)
        return;
    b->work = whole(run, b);
    b->status = guidework_status(b->work);
    tell(run, b->work->compile.diags);
    if (b->status == STATUS_GOOD && b->work->pages != NULL)
        b->frozen = b->old || b->work->pages->issued;
}

/* A name in `guide:` that no file has. */
static bool is_there(struct run *run, struct job *j, const char *path,
                     struct text guide) {
    struct arena *a = run->r->arena;
    if (access(path, F_OK) == 0)
        return true;
    const char *const *all;
    size_t count = shelf_guides(a, run->r->root, &all);
    struct nearest near = nearest_to(guide);
    for (size_t i = 0; i < count; i++)
        nearest_offer(&near, text_of(shelf_stem(a, all[i])));
    diag_add(j->compile.diags, DIAG_FILE_MISSING,
             tree_setting(j->block, "guide")->at, "%s%s", path,
             suggest(a, guide, (struct text){near.best, near.best_len}));
    j->status = STATUS_USAGE;
    return false;
}

static void find_basis(struct run *run, struct job *j) {
    struct text guide = job_setting(run->r->arena, j->block, "guide");
    struct text revision = job_setting(run->r->arena, j->block, "revision");
    const char *path = shelf_guide(run->r->arena, run->r->root,
                                   text_cstr(run->r->arena, guide));
    struct basis *b = NULL;
    if (!is_there(run, j, path, guide))
        return;
    for (size_t i = 0; i < run->basis_count && b == NULL; i++)
        if (strcmp(run->basis[i].path, path) == 0 &&
            text_equal(run->basis[i].revision, revision))
            b = &run->basis[i];
    if (b == NULL) {
        b = &run->basis[run->basis_count++];
        *b = (struct basis){.path = path, .revision = revision};
        open_basis(run, j, b);
    }
    if (b->status == STATUS_GOOD)
        j->basis = b;
    else if (j->status == STATUS_GOOD)
        j->status = b->status;
}

/* --- the sheets --- */

static void *run_job(const void *context, size_t i) {
    const struct run *run = context;
    const struct job *j = &run->job[i];
    if (j->basis == NULL || j->status != STATUS_GOOD)
        return NULL;
    struct layout_options options = run->layout;
    options.frozen = j->basis->frozen;
    struct arena *own = arena_new();
    struct text variant = job_setting(own, j->block, "variant");
    struct guidework *w = guidework_do(&(struct guidework_task){
        .root = run->r->root,
        .path = j->basis->path,
        .only = variant.len == 0 ? NULL : text_cstr(own, variant),
        .job = j->path,
        .last = STAGE_PRINT,
        .options = &options,
        .issued = j->basis->old ? &j->basis->issued : NULL});
    w->compile.only = NULL; /* it was of this arena */
    arena_free(own);
    return w;
}

/* Writes the sheet, or withdraws the last one of a job that is refused. */
static void finish(const struct run *run, struct job *j, struct guidework *w,
                   struct results *results) {
    const struct request *r = run->r;
    const char *pdf =
        shelf_sheet(r->arena, r->root, j->stem, run->layout.template);
    struct compile *c = w == NULL ? &j->compile : &w->compile;
    size_t pages = 0;
    const char *moved = NULL;
    if (w != NULL)
        j->status = guidework_status(w);
    if (j->status == STATUS_GOOD && w != NULL && w->pdf != NULL)
        store_write(c, pdf, w->pdf, w->pdf_len);
    else
        store_withdraw(c, pdf, &moved);
    if (diag_status(c->diags) > j->status)
        j->status = diag_status(c->diags);
    if (w != NULL && w->pages != NULL)
        pages = w->pages->count;
    tell(run, c->diags);
    if (moved != NULL)
        fprintf(stderr, "bayleaf: %s was refused; its last sheet is now %s\n",
                j->path, moved);
    bool good = j->status == STATUS_GOOD;
    if (results != NULL)
        result_guide(results, j->path, good ? pdf : NULL, pages, j->status);
    else if (good)
        printf("%s  %zu page%s\n", pdf, pages, pages == 1 ? "" : "s");
    if (w != NULL)
        guidework_end(w);
}

static int print_all(struct run *run) {
    struct results *results = run->r->json ? result_begin() : NULL;
    struct crew *crew = crew_start(run->count, run_job, run);
    int worst = STATUS_GOOD;
    if (crew == NULL)
        arena_exhausted();
    for (size_t i = 0; i < run->count; i++) {
        finish(run, &run->job[i], crew_take(crew, i), results);
        if (run->job[i].status > worst)
            worst = run->job[i].status;
    }
    crew_end(crew);
    if (results != NULL)
        result_end(results, stdout);
    return worst;
}

int command_sheet(const struct request *r) {
    struct run run = {.r = r, .layout = r->layout, .count = r->word_count};
    run.shown = shown_new(r->arena);
    run.job = arena_alloc(r->arena, run.count, sizeof *run.job);
    run.basis = arena_alloc(r->arena, run.count, sizeof *run.basis);
    if (run.layout.template == NULL)
        run.layout.template = "owner";
    for (size_t i = 0; i < run.count; i++)
        if (!command_is_plain(r->word[i]))
            return command_usage("no plain text: '%s'", r->word[i]);
    store_sweep(r->arena, shelf_sheet(r->arena, r->root, "", NULL));
    for (size_t i = 0; i < run.count; i++)
        read_job(&run, &run.job[i], r->word[i]);
    check_numbers(&run);
    for (size_t i = 0; i < run.count; i++)
        if (run.job[i].status == STATUS_GOOD && run.job[i].block != NULL)
            find_basis(&run, &run.job[i]);
    int status = print_all(&run);
    for (size_t i = 0; i < run.basis_count; i++)
        if (run.basis[i].work != NULL)
            guidework_end(run.basis[i].work);
    return status;
}

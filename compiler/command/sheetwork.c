/* sheetwork.c - jobs through the stages, for their owners.
 *
 * Each job is a guide computed again with the figures of one vehicle. The guide
 * itself must hold first, once for all its jobs; of a revision that was issued
 * the sources are those that were issued, whatever procedures/ says now. */
#include "command/sheetwork.h"

#include "base/arena.h"
#include "base/diag.h"
#include "base/shown.h"
#include "checks/catalogue.h"
#include "layout/display.h"
#include "library/crew.h"
#include "library/faces.h"
#include "library/fleet.h"
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
    size_t number;        /* of the revision */
    struct text revision; /* as jobs ask for it; absent: as it stands */
    struct guidework *work;
    struct file_texts issued;
    bool old;    /* the guide has another revision now */
    bool kept;   /* what was issued is computed */
    bool frozen; /* its pages are those of an issued revision */
    int status;
    struct basis *next;
};

/* What is told of a job once the disk has what it wrote. */
struct outcome {
    const char *name, *pdf; /* pdf NULL: it gave none */
    size_t pages;
    int status;
};

/* What a batch wrote, while the disk syncs it. */
struct syncing {
    struct compile compile; /* owns it */
    struct store_batch *store;
    struct outcome *outcome;
    size_t count;
};

struct sheetwork {
    const struct request *r;
    struct layout_options layout;
    struct basis *basis;
    struct shown *shown;
    const struct catalogue *catalogue;
    struct faces *faces;
    struct syncing *syncing; /* the batch before this one; NULL: none */
    struct results *results; /* NULL: lines on standard output */
    bool quiet;
};

/* Jobs under way. */
struct batch {
    const struct sheetwork *run;
    struct sheet_job *job;
    enum stage last;
};

/* How many of them were told before, of another job. */
static size_t tell(const struct sheetwork *run, struct diags *d) {
    return run->quiet ? 0
                      : diag_print_new(d, run->shown, stderr, run->r->colour);
}

/* Its block; the status and the messages are the job's. */
static void read_job(struct sheet_job *j, struct source *src) {
    j->source = src;
    j->block = job_read(&j->compile, src);
    j->status = diag_status(j->compile.diags);
}

struct text sheetwork_number(const struct sheet_job *j) {
    return j->block == NULL ? (struct text){NULL, 0}
                            : job_setting(j->compile.arena, j->block, "number");
}

static struct sheet_job new_job(const struct request *r, struct arena *a) {
    return (struct sheet_job){
        .compile = {.arena = a, .diags = diag_new(a), .library = r->root}};
}

void sheetwork_file(const struct request *r, struct arena *a,
                    struct sheet_job *j, const char *word) {
    *j = new_job(r, a);
    j->name = shelf_job(a, r->root, word);
    j->stem = shelf_stem(a, j->name);
    read_job(j, file_read_given(&j->compile, j->name));
}

const char *sheetwork_stem(struct arena *a, struct text number) {
    char *out = arena_copy(a, number.start, number.len);
    for (char *c = out; *c != '\0'; c++)
        if (!((*c >= '0' && *c <= '9') || (*c >= 'a' && *c <= 'z') ||
              (*c >= 'A' && *c <= 'Z') || *c == '-' || *c == '_'))
            *c = '-';
    return out;
}

size_t sheetwork_rows(const struct request *r, struct fleet *f, struct arena *a,
                      struct sheet_job *job) {
    size_t count = 0;
    for (bool end = false; count < SHEETS_TOGETHER; count++) {
        struct sheet_job *j = &job[count];
        *j = new_job(r, a);
        size_t row;
        struct source *src = fleet_next(f, &j->compile, &row, &end);
        if (end)
            break;
        j->name = arena_printf(a, "%s row %zu", fleet_path(f), row);
        read_job(j, src);
        struct text number = sheetwork_number(j);
        if (number.len > 0)
            j->stem = sheetwork_stem(a, number);
    }
    return count;
}

/* --- the guides --- */

/* The issued sources, which all jobs of it rest on; without any the guide as it
 * stands, if it is of that revision. False after a message at the job. */
static bool take_issued(struct sheetwork *run, struct sheet_job *j,
                        struct basis *b, const struct guide *g) {
    struct arena *a = run->r->arena;
    struct compile kept = j->compile;
    kept.arena = a; /* the job's own ends before those that come later */
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
    const struct issued *was = path == NULL || revision == 0
                                   ? NULL
                                   : issued_read(&kept, path, &missing);
    if (was == NULL && missing && !b->old)
        return true;
    if (was == NULL) {
        if (missing)
            diag_add(j->compile.diags, DIAG_JOB_REVISION,
                     tree_setting(j->block, "revision")->at,
                     "'%.*s' was not issued; %s is at revision %zu",
                     (int)b->revision.len, b->revision.start, b->path,
                     now.revision);
        return false;
    }
    b->kept = b->frozen = true;
    b->number = revision;
    b->issued = (struct file_texts){was->source, was->source_count};
    return true;
}

static struct guidework *whole(const struct sheetwork *run,
                               const struct basis *b) {
    struct layout_options options = run->layout;
    options.template = NULL;
    return guidework_do(
        &(struct guidework_task){.root = run->r->root,
                                 .path = b->path,
                                 .last = STAGE_LAYOUT,
                                 .options = &options,
                                 .faces = run->faces,
                                 .issued = b->kept ? &b->issued : NULL});
}

/* The guide must hold for all its vehicles before it is used for one. */
static void open_basis(struct sheetwork *run, struct sheet_job *j,
                       struct basis *b) {
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
    b->number = revision;
    b->old = b->revision.len > 0 && strcmp(wanted, stands) != 0;
    if (b->status != STATUS_GOOD)
        tell(run, now->compile.diags);
    else if (b->revision.len > 0 && !take_issued(run, j, b, now->guide))
        b->status = STATUS_USAGE;
    guidework_end(now);
    if (b->status != STATUS_GOOD)
        return;
    b->work = whole(run, b);
    b->status = guidework_status(b->work);
    tell(run, b->work->compile.diags);
    if (b->status == STATUS_GOOD && b->work->pages != NULL)
        b->frozen = b->kept || b->work->pages->issued;
}

/* A name in `guide:` that no file has. */
static bool is_there(struct sheetwork *run, struct sheet_job *j,
                     const char *path, struct text guide) {
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

static void find_basis(struct sheetwork *run, struct sheet_job *j) {
    struct arena *own = j->compile.arena;
    struct text guide = job_setting(own, j->block, "guide");
    struct text revision = job_setting(own, j->block, "revision");
    const char *path = shelf_guide(own, run->r->root, text_cstr(own, guide));
    struct basis *b = run->basis;
    if (!is_there(run, j, path, guide))
        return;
    while (b != NULL &&
           (strcmp(b->path, path) != 0 || !text_equal(b->revision, revision)))
        b = b->next;
    if (b == NULL) {
        b = arena_alloc(run->r->arena, 1, sizeof *b);
        *b = (struct basis){
            .path = arena_copy(run->r->arena, path, strlen(path)),
            .revision = {text_cstr(run->r->arena, revision), revision.len},
            .next = run->basis};
        run->basis = b;
        open_basis(run, j, b);
    }
    if (b->status == STATUS_GOOD)
        j->basis = b;
    else if (j->status == STATUS_GOOD)
        j->status = b->status;
}

/* --- the sheets --- */

/* What a job gave: all that is written and told of it. */
struct made {
    struct compile compile; /* owns it */
    int status;
    const char *code; /* "": not laid out */
    size_t pages, pdf_len;
    const unsigned char *pdf; /* NULL: not printed */
};

/* Results wait for their turn, so a guide is freed here, by the hand that
 * filled it, and before that hand begins the next: as many are in memory as
 * there are hands. One with messages stays whole, since these name its sources.
 */
static struct made *made_of(struct guidework *w) {
    bool telling = diag_count(w->compile.diags, LEVEL_WARNING) > 0;
    struct arena *a = telling ? w->compile.arena : arena_new();
    struct made *m = arena_alloc(a, 1, sizeof *m);
    m->status = guidework_status(w);
    m->code = w->pages == NULL
                  ? ""
                  : arena_copy(a, w->pages->code, strlen(w->pages->code));
    m->pages = w->pages == NULL ? 0 : w->pages->count;
    m->pdf_len = w->pdf_len;
    m->pdf = w->pdf;
    m->compile = w->compile;
    if (telling)
        return m;
    if (w->pdf != NULL)
        m->pdf = arena_same(a, w->pdf, w->pdf_len, 1);
    m->compile = (struct compile){
        .arena = a, .diags = diag_new(a), .library = w->compile.library};
    guidework_end(w);
    return m;
}

static void *run_job(const void *context, size_t i) {
    const struct batch *b = context;
    const struct sheetwork *run = b->run;
    const struct sheet_job *j = &b->job[i];
    if (j->basis == NULL || j->status != STATUS_GOOD)
        return NULL;
    struct layout_options options = run->layout;
    options.frozen = j->basis->frozen;
    struct arena *own = arena_new();
    struct text variant = job_setting(own, j->block, "variant");
    struct made *m = made_of(guidework_do(&(struct guidework_task){
        .root = run->r->root,
        .path = j->basis->path,
        .guide = j->basis->work->guide,
        .only = variant.len == 0 ? NULL : text_cstr(own, variant),
        .job = j->source,
        .last = b->last,
        .options = &options,
        .catalogue = run->catalogue,
        .faces = run->faces,
        .issued = j->basis->kept ? &j->basis->issued : NULL}));
    m->compile.only = NULL; /* it was of this arena */
    arena_free(own);
    return m;
}

/* Writes the sheet, or withdraws the last one of a job that is refused. */
static void finish(const struct sheetwork *run, struct sheet_job *j,
                   struct made *m, struct syncing *s) {
    const struct request *r = run->r;
    const char *pdf = j->stem == NULL
                          ? NULL
                          : shelf_sheet(j->compile.arena, r->root, j->stem,
                                        run->layout.template);
    struct compile *c = m == NULL ? &j->compile : &m->compile;
    size_t pages = m == NULL ? 0 : m->pages;
    const char *moved = NULL;
    if (m != NULL)
        j->status = m->status;
    if (j->status == STATUS_GOOD && m != NULL && m->pdf != NULL)
        store_add(s->store, c, pdf, m->pdf, m->pdf_len);
    else if (pdf != NULL)
        store_withdraw(c, pdf, &moved);
    if (diag_status(c->diags) > j->status)
        j->status = diag_status(c->diags);
    size_t before = tell(run, c->diags);
    if (j->status != STATUS_GOOD)
        fprintf(stderr, "bayleaf: no sheet of %s%s\n", j->name,
                before > 0 ? ", by what stands above" : "");
    if (moved != NULL)
        fprintf(stderr, "bayleaf: its last sheet is now %s\n", moved);
    struct arena *a = s->compile.arena; /* the job ends before it is told */
    bool good = j->status == STATUS_GOOD && pdf != NULL;
    s->outcome[s->count++] = (struct outcome){
        arena_copy(a, j->name, strlen(j->name)),
        good ? arena_copy(a, pdf, strlen(pdf)) : NULL, pages, j->status};
    if (m != NULL)
        arena_free(m->compile.arena);
}

static struct crew *start(struct sheetwork *w, struct batch *b, size_t count) {
    for (size_t i = 0; i < count; i++)
        if (b->job[i].status == STATUS_GOOD && b->job[i].block != NULL)
            find_basis(w, &b->job[i]);
    struct crew *crew = crew_start(count, run_job, b);
    if (crew == NULL)
        arena_exhausted();
    return crew;
}

size_t sheetwork_coded(struct sheetwork *w, struct sheet_job *job, size_t count,
                       const char *code) {
    struct batch batch = {w, job, STAGE_LAYOUT};
    size_t found = count;
    w->quiet = true;
    struct crew *crew = start(w, &batch, count);
    for (size_t i = 0; i < count; i++) {
        struct made *one = crew_take(crew, i);
        if (one == NULL)
            continue;
        if (found == count && one->status == STATUS_GOOD &&
            strcmp(one->code, code) == 0)
            found = i;
        arena_free(one->compile.arena);
    }
    crew_end(crew);
    w->quiet = false;
    return found;
}

size_t sheetwork_revision(const struct sheet_job *j, bool *old) {
    *old = j->basis->old;
    return j->basis->number;
}

static void tell_outcome(const struct sheetwork *w, struct syncing *s,
                         struct outcome *o) {
    if (o->pdf != NULL && !store_named(s->store, o->pdf)) {
        fprintf(stderr, "bayleaf: no sheet of %s\n", o->name);
        o->pdf = NULL;
        o->status = diag_status(s->compile.diags);
    }
    if (w->results != NULL)
        result_guide(w->results, o->name, o->pdf, o->pages, o->status);
    else if (o->pdf != NULL)
        printf("%s  %zu page%s\n", o->pdf, o->pages, o->pages == 1 ? "" : "s");
}

/* Waits for the batch before; how it went. */
static int settle(struct sheetwork *w) {
    struct syncing *s = w->syncing;
    if (s == NULL)
        return STATUS_GOOD;
    w->syncing = NULL;
    store_wait(s->store);
    tell(w, s->compile.diags);
    for (size_t i = 0; i < s->count; i++)
        tell_outcome(w, s, &s->outcome[i]);
    int status = diag_status(s->compile.diags);
    arena_free(s->compile.arena);
    return status;
}

static struct syncing *new_syncing(size_t jobs) {
    struct arena *a = arena_new();
    struct syncing *s = arena_alloc(a, 1, sizeof *s);
    s->compile = (struct compile){.arena = a, .diags = diag_new(a)};
    s->store = store_open(a);
    s->outcome = arena_alloc(a, jobs, sizeof *s->outcome);
    return s;
}

int sheetwork_print(struct sheetwork *w, struct sheet_job *job, size_t count,
                    struct results *results) {
    struct batch batch = {w, job, STAGE_PRINT};
    struct crew *crew = start(w, &batch, count);
    int worst = STATUS_GOOD;
    struct syncing *now = new_syncing(count);
    w->results = results;
    for (size_t i = 0; i < count; i++) {
        finish(w, &job[i], crew_take(crew, i), now);
        if (job[i].status > worst)
            worst = job[i].status;
    }
    crew_end(crew);
    int before = settle(w);
    w->syncing = now;
    store_close(now->store, &now->compile);
    return before > worst ? before : worst;
}

struct sheetwork *sheetwork_open(const struct request *r) {
    struct sheetwork *w = arena_alloc(r->arena, 1, sizeof *w);
    w->r = r;
    w->faces = faces_new();
    w->layout = r->layout;
    if (w->layout.template == NULL)
        w->layout.template = "owner";
    w->shown = shown_new(r->arena);
    struct compile own = {
        .arena = r->arena, .diags = diag_new(r->arena), .library = r->root};
    w->catalogue = catalogue_shared(&own);
    store_sweep(r->arena, shelf_sheet(r->arena, r->root, "", NULL));
    return w;
}

int sheetwork_check(const struct sheetwork *w) {
    struct arena *a = w->r->arena;
    struct compile c = {.arena = a,
                        .diags = diag_new(a),
                        .library = w->r->root,
                        .job = place_source(a, "sheet", (struct text){"", 0})};
    if (layout_template(&c, &w->layout))
        return STATUS_GOOD;
    tell(w, c.diags);
    return diag_status(c.diags);
}

int sheetwork_end(struct sheetwork *w) {
    int status = settle(w);
    for (struct basis *b = w->basis; b != NULL; b = b->next)
        if (b->work != NULL)
            guidework_end(b->work);
    faces_free(w->faces);
    return status;
}

/* register_jobs.c - which owner's sheets are out of date.
 *
 * Nothing records what was printed for an owner. A job says which revision its
 * sheet is of, or none: then it is of the guide as it stands. So a sheet is out
 * of date when its guide was issued since as a later revision, or when the last
 * one does not say any more what the guide says now. Nothing that is an owner's
 * is told. */
#include "base/arena.h"
#include "base/list.h"
#include "command/jobwalk.h"
#include "command/register_work.h"
#include "library/fleet.h"
#include "library/shelf.h"
#include "source/job.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

enum { ROWS_NAMED = 5 };

/* What of a job decides whether its sheet is out of date. */
struct origin {
    const char *guide;    /* stem */
    const char *revision; /* "": none */
};

static struct origin origin_of(struct arena *a, const struct sheet_job *j) {
    struct text guide = job_setting(a, j->block, "guide");
    return (struct origin){shelf_stem(a, text_cstr(a, guide)),
                           text_cstr(a, job_setting(a, j->block, "revision"))};
}

/* NULL: it is not, as far as anybody knows. */
static const char *why_old(struct arena *a,
                           const struct shelf_of_issued *issued,
                           struct origin o) {
    for (size_t i = 0; i < issued->count; i++) {
        const struct issued *last = issued->list[i];
        if (!text_is(last->guide, o.guide) ||
            last->revision != register_latest(issued, last->id))
            continue;
        bool none = o.revision[0] == '\0';
        size_t revision = none ? last->revision : strtoul(o.revision, NULL, 10);
        if (revision < last->revision)
            return arena_printf(a, "its guide was issued as revision %zu",
                                last->revision);
        if (revision == last->revision && issued->changed[i])
            return arena_printf(
                a, "its guide says otherwise now than revision %zu%s",
                last->revision,
                none ? "; print again what was printed before" : "");
    }
    return NULL;
}

static void print_origin(struct origin o) {
    printf("%s%s%s", o.guide, o.revision[0] == '\0' ? "" : " revision ",
           o.revision);
}

static void unreadable(struct register_work *w, int status) {
    puts("  cannot be read; `bayleaf sheet` says why");
    w->status = status > w->status ? status : w->status;
}

/* --- job files --- */

static void look_at_files(struct register_work *w,
                          const struct shelf_of_issued *issued) {
    for (struct jobwalk all = jobwalk_start(w->r); jobwalk_next(&all);) {
        const struct sheet_job *j = &all.job;
        if (j->status != STATUS_GOOD) {
            printf("job %s\n", j->name);
            unreadable(w, j->status);
            continue;
        }
        struct arena *own = j->compile.arena;
        struct origin o = origin_of(own, j);
        const char *why = why_old(own, issued, o);
        if (why == NULL)
            continue;
        struct text number = sheetwork_number(j);
        printf("job %.*s, ", (int)number.len, number.start);
        print_origin(o);
        printf(", %s\n  %s\n", j->name, why);
        register_refused(w);
    }
}

/* --- tables --- */

/* Rows of one origin. */
struct lot {
    struct origin origin;
    const char *why;
    const char *number[ROWS_NAMED];
    size_t count;
};

struct table {
    struct arena *arena;
    const char *path;
    struct lot *lot;
    size_t lots, room;
    size_t rows, bad;
    int status; /* of the bad ones */
};

static struct lot *lot_of(struct table *t, const struct shelf_of_issued *issued,
                          struct origin o) {
    for (size_t i = 0; i < t->lots; i++)
        if (strcmp(t->lot[i].origin.guide, o.guide) == 0 &&
            strcmp(t->lot[i].origin.revision, o.revision) == 0)
            return &t->lot[i];
    struct arena *a = t->arena;
    t->lot = list_grown(a, t->lot, t->lots, &t->room, sizeof *t->lot);
    struct lot *lot = &t->lot[t->lots++];
    *lot =
        (struct lot){.origin = {arena_copy(a, o.guide, strlen(o.guide)),
                                arena_copy(a, o.revision, strlen(o.revision))},
                     .why = why_old(a, issued, o)};
    return lot;
}

static void add_row(struct table *t, const struct shelf_of_issued *issued,
                    const struct sheet_job *j) {
    t->rows++;
    if (j->status != STATUS_GOOD) {
        t->bad++;
        t->status = j->status > t->status ? j->status : t->status;
        return;
    }
    struct lot *lot = lot_of(t, issued, origin_of(j->compile.arena, j));
    if (lot->why != NULL && lot->count < ROWS_NAMED)
        lot->number[lot->count] = text_cstr(t->arena, sheetwork_number(j));
    lot->count++;
}

static void print_lot(const struct table *t, const struct lot *lot) {
    printf("fleet %s, ", t->path);
    print_origin(lot->origin);
    printf(", %zu of %zu rows: ", lot->count, t->rows);
    for (size_t i = 0; i < lot->count && i < ROWS_NAMED; i++)
        printf("%s%s", i > 0 ? ", " : "", lot->number[i]);
    if (lot->count > ROWS_NAMED)
        printf(" and %zu more", lot->count - ROWS_NAMED);
    printf("\n  %s\n", lot->why);
}

static void print_table(struct register_work *w, const struct table *t) {
    for (size_t i = 0; i < t->lots; i++)
        if (t->lot[i].why != NULL) {
            print_lot(t, &t->lot[i]);
            register_refused(w);
        }
    if (t->bad == 0)
        return;
    printf("fleet %s, %zu of %zu rows\n", t->path, t->bad, t->rows);
    unreadable(w, t->status);
}

/* Nobody named it, so nothing is waited for, as a pipe would be. */
static bool is_file(const char *path) {
    struct stat status;
    return stat(path, &status) == 0 && S_ISREG(status.st_mode);
}

static void look_at_table(struct register_work *w,
                          const struct shelf_of_issued *issued,
                          const char *path) {
    const struct request *r = w->r;
    struct compile c = {
        .arena = r->arena, .diags = diag_new(r->arena), .library = r->root};
    struct table t = {.arena = r->arena, .path = path};
    struct fleet *f = is_file(path) ? fleet_open(&c, path) : NULL;
    if (f == NULL) {
        printf("fleet %s\n", path);
        int status = diag_status(c.diags);
        unreadable(w, status > STATUS_USAGE ? status : STATUS_USAGE);
        return;
    }
    struct sheet_job job[SHEETS_TOGETHER];
    for (size_t count = SHEETS_TOGETHER; count == SHEETS_TOGETHER;) {
        struct arena *own = arena_new();
        count = sheetwork_rows(r, f, own, job);
        for (size_t i = 0; i < count; i++)
            add_row(&t, issued, &job[i]);
        arena_free(own);
    }
    fleet_close(f);
    print_table(w, &t);
}

void register_jobs(struct register_work *w,
                   const struct shelf_of_issued *issued) {
    const char *const *path;
    look_at_files(w, issued);
    size_t count = shelf_fleets(w->r->arena, w->r->root, &path);
    for (size_t i = 0; i < count; i++)
        look_at_table(w, issued, path[i]);
}

/* register_sheet.c - what a sheet in the hand is. */
#include "base/arena.h"
#include "command/other_print.h"
#include "command/register_work.h"
#include "command/sheetwork.h"
#include "library/fleet.h"
#include "library/shelf.h"
#include "source/job.h"

#include <stdio.h>
#include <string.h>

static bool print_job(struct sheetwork *w, struct sheet_job *job, size_t count,
                      const char *code) {
    size_t i = sheetwork_coded(w, job, count, code);
    if (i == count)
        return false;
    struct text number = sheetwork_number(&job[i]);
    struct text guide =
        job_setting(job[i].compile.arena, job[i].block, "guide");
    bool old;
    size_t revision = sheetwork_revision(&job[i], &old);
    printf("%s is the owner's sheet of job %.*s, %.*s revision %zu, %s\n", code,
           (int)number.len, number.start, (int)guide.len, guide.start, revision,
           job[i].name);
    if (old)
        puts("  the guide has another revision now");
    return true;
}

static bool print_row(struct sheetwork *w, const struct request *r,
                      const char *table, const char *code) {
    struct compile c = {
        .arena = r->arena, .diags = diag_new(r->arena), .library = r->root};
    struct fleet *f = fleet_open(&c, table);
    struct sheet_job job[SHEETS_TOGETHER];
    bool found = false;
    size_t count = f == NULL ? 0 : SHEETS_TOGETHER;
    while (count == SHEETS_TOGETHER && !found) {
        struct arena *own = arena_new();
        count = sheetwork_rows(r, f, own, job);
        found = print_job(w, job, count, code);
        arena_free(own);
    }
    if (f != NULL)
        fleet_close(f);
    return found;
}

/* What the jobs of the library print now. Nothing that is an owner's is told.
 */
static bool print_job_of(const struct request *r, const char *code) {
    const char *const *path;
    struct sheetwork *w = sheetwork_open(r);
    size_t count = shelf_jobs(r->arena, r->root, &path);
    struct sheet_job *job = arena_alloc(r->arena, count + 1, sizeof *job);
    for (size_t i = 0; i < count; i++)
        sheetwork_file(r, r->arena, &job[i], path[i]);
    bool found = print_job(w, job, count, code);
    size_t tables = found ? 0 : shelf_fleets(r->arena, r->root, &path);
    for (size_t i = 0; i < tables && !found; i++)
        found = print_row(w, r, path[i], code);
    sheetwork_end(w);
    return found;
}

/* A guide for one vehicle, or by another template, now or as it was issued. */
static bool print_other(struct register_work *w,
                        const struct shelf_of_issued *issued,
                        const char *code) {
    const struct request *r = w->r;
    const struct census *s = &w->census;
    struct other_base *base =
        arena_alloc(r->arena, s->guide_count + issued->count + 1, sizeof *base);
    size_t count = 0;
    for (size_t i = 0; i < s->guide_count; i++)
        base[count++].path = s->guide[i].path;
    for (size_t i = 0; i < issued->count; i++)
        base[count++] = (struct other_base){
            shelf_guide(r->arena, r->root,
                        text_cstr(r->arena, issued->list[i]->guide)),
            issued->list[i]};
    struct other_print p;
    if (!other_print_find(r, base, count, code, &p))
        return false;
    const struct issued *i =
        p.base < s->guide_count ? &s->guide[p.base].now : base[p.base].issued;
    printf("%s is %.*s revision %zu, %.*s", code, (int)i->id.len, i->id.start,
           i->revision, (int)i->title.len, i->title.start);
    if (p.only != NULL)
        printf(", for %s alone", p.only);
    if (p.template != NULL)
        printf(", by the template %s", p.template);
    if (base[p.base].issued == NULL && !p.issued)
        printf(", as it stands now: not issued");
    putchar('\n');
    size_t latest = register_latest(issued, i->id);
    if (latest > i->revision)
        printf("  superseded by revision %zu\n", latest);
    else if (p.issued)
        puts("  the last revision that was issued");
    return true;
}

/* A sheet in the hand: the code at its foot. */
void register_sheet(struct register_work *w, const char *code) {
    struct shelf_of_issued issued = register_issued(w);
    for (size_t i = 0; i < issued.count; i++) {
        const struct issued *was = issued.list[i];
        if (!text_is(was->code, code))
            continue;
        size_t latest = register_latest(&issued, was->id);
        const struct census_guide *g = register_guide(&w->census, was);
        printf("%s is %.*s revision %zu, %.*s\n", code, (int)was->id.len,
               was->id.start, was->revision, (int)was->title.len,
               was->title.start);
        if (latest > was->revision)
            printf("  superseded by revision %zu\n", latest);
        else
            puts("  the last revision that was issued");
        if (g == NULL)
            puts("  its guide is no more, or is refused");
        else if (register_differences(&w->census, was, &g->now) == 0)
            puts("  it says what the guide says now");
        return;
    }
    for (size_t i = 0; i < w->census.guide_count; i++) {
        const struct census_guide *g = &w->census.guide[i];
        if (!text_is(g->now.code, code))
            continue;
        printf("%s is %.*s revision %zu as it stands now, %s: not issued\n",
               code, (int)g->now.id.len, g->now.id.start, g->now.revision,
               g->path);
        return;
    }
    if (print_job_of(w->r, code) || print_other(w, &issued, code))
        return;
    printf("%s is no sheet of this library: not issued, and not what a guide "
           "or a job prints now\n",
           code);
    register_refused(w);
}

/* command_register.c - register: every figure, its source, where it is printed;
 * what says otherwise; what is out of date. */
#include "base/arena.h"
#include "base/diag.h"
#include "base/shown.h"
#include "checks/catalogue.h"
#include "command/command.h"
#include "command/other_print.h"
#include "command/register_print.h"
#include "command/sheetwork.h"
#include "library/census.h"
#include "library/crew.h"
#include "library/faces.h"
#include "library/fleet.h"
#include "library/order.h"
#include "library/shelf.h"
#include "source/job.h"
#include "values/figure.h"

#include <stdio.h>
#include <string.h>

struct register_work {
    const struct request *r;
    struct census census;
    struct circle circle; /* of the census */
    int status;
};

/* Guides under way. */
struct readers {
    const char *root;
    const char *const *path;
    struct passages *printed; /* by guide */
    struct layout_options *options;
    const struct catalogue *catalogue;
    struct faces *faces;
};

static void *read_guide(const void *context, size_t i) {
    const struct readers *s = context;
    return guidework_do(&(struct guidework_task){.root = s->root,
                                                 .path = s->path[i],
                                                 .last = STAGE_LAYOUT,
                                                 .options = &s->options[i],
                                                 .catalogue = s->catalogue,
                                                 .faces = s->faces});
}

static struct readers readers_of(const struct request *r, size_t *count) {
    struct readers s = {.root = r->root, .faces = faces_new()};
    *count = shelf_guides(r->arena, r->root, &s.path);
    s.printed = arena_alloc(r->arena, *count + 1, sizeof *s.printed);
    s.options = arena_alloc(r->arena, *count + 1, sizeof *s.options);
    for (size_t i = 0; i < *count; i++)
        s.options[i].passages = &s.printed[i];
    struct compile own = {
        .arena = r->arena, .diags = diag_new(r->arena), .library = r->root};
    s.catalogue = catalogue_shared(&own);
    return s;
}

/* All guides laid out; one that is refused is named and left out. */
static void read_guides(struct register_work *w) {
    const struct request *r = w->r;
    size_t count;
    struct readers all = readers_of(r, &count);
    struct shown *shown = shown_new(r->arena);
    struct crew *crew = crew_start(count, read_guide, &all);
    if (crew == NULL)
        arena_exhausted();
    for (size_t i = 0; i < count; i++) {
        struct guidework *one = crew_take(crew, i);
        int status = guidework_status(one);
        if (status != STATUS_GOOD) {
            diag_print_new(one->compile.diags, shown, stderr, r->colour);
            fprintf(stderr, "bayleaf: %s is left out of the register\n",
                    all.path[i]);
            w->status = status > w->status ? status : w->status;
        } else {
            census_add(&w->census, one, &all.printed[i]);
        }
        guidework_end(one);
    }
    crew_end(crew);
    faces_free(all.faces);
    census_sort(&w->census);
    w->circle = order_circle(&w->census);
}

static void print_uses(const struct census_figure *f) {
    const char *guide = NULL;
    if (f->use_count == 0)
        puts("    no guide uses it");
    for (size_t i = 0; i < f->use_count; i++) {
        const struct census_use *u = &f->use[i];
        bool same = guide != NULL && strcmp(guide, u->guide) == 0;
        if (!same)
            printf("%s    %s: ", guide == NULL ? "" : "\n", u->guide);
        else
            fputs(", ", stdout);
        figure_write(stdout, u->place);
        if (u->page > 0)
            printf(" (page %d)", u->page);
        guide = u->guide;
    }
    if (f->use_count > 0)
        putchar('\n');
}

static void print_figures(const struct census *s) {
    const char *path = "";
    for (size_t i = 0; i < s->count; i++) {
        const struct census_figure *f = &s->figure[i];
        if (strcmp(path, f->path) != 0)
            printf("%s%s\n", i == 0 ? "" : "\n", f->path);
        path = f->path;
        printf("  %s = ", f->name);
        figure_write(stdout, f->printed);
        if (f->source[0] != '\0')
            printf("  \"%s\"", f->source);
        printf("  line %zu\n", f->line);
        print_uses(f);
    }
}

/* Numbers that guides come after or before, and nobody has. */
static void print_missing(const struct census *s) {
    bool any = false;
    for (size_t i = 0; i < s->guide_count; i++)
        for (size_t k = 0; k < s->guide[i].tie_count; k++) {
            const struct census_tie *t = &s->guide[i].tie[k];
            struct text id = s->guide[i].now.id;
            if (census_guide_of(s, t->id) != NULL)
                continue;
            printf("%s  %s, which %.*s comes %s\n",
                   any ? "" : "\nno guide of this library\n", t->id,
                   (int)id.len, id.start, t->after ? "after" : "before");
            any = true;
        }
}

/* Figures that are stated twice, guides that can never be begun. */
static bool has_conflicts(const struct register_work *w) {
    bool any = w->circle.count > 0;
    for (size_t i = 0; i < w->census.count && !any; i++)
        any = census_conflict(&w->census, i, i) < w->census.count;
    return any;
}

static void print_conflicts(const struct register_work *w) {
    const struct census *s = &w->census;
    if (!has_conflicts(w))
        return;
    puts("\nconflicts");
    for (size_t i = 0; i < s->count; i++)
        for (size_t k = census_conflict(s, i, i); k < s->count;
             k = census_conflict(s, i, k)) {
            printf("  %s is ", s->figure[i].name);
            figure_write(stdout, s->figure[i].printed);
            printf(" at %s:%zu and ", s->figure[i].path, s->figure[i].line);
            figure_write(stdout, s->figure[k].printed);
            printf(" at %s:%zu\n", s->figure[k].path, s->figure[k].line);
        }
    if (w->circle.count > 0)
        printf("  each comes after the one before it, and the first after the "
               "last: %s\n",
               order_words(w->r->arena, &w->circle));
}

static const struct census_guide *guide_of(const struct census *s,
                                           const struct issued *was) {
    for (size_t i = 0; i < s->guide_count; i++)
        if (text_equal(s->guide[i].now.guide, was->guide))
            return &s->guide[i];
    return NULL;
}

static const struct issued_value *value_of(const struct issued *i,
                                           struct text name) {
    for (size_t k = 0; k < i->value_count; k++)
        if (text_equal(i->value[k].name, name))
            return &i->value[k];
    return NULL;
}

static bool has_words(const struct issued *i, struct text words) {
    for (size_t k = 0; k < i->printed.count; k++)
        if (text_equal(i->printed.list[k].words, words))
            return true;
    return false;
}

static void write_text(struct arena *a, struct text t) {
    figure_write(stdout, text_cstr(a, t));
}

/* A fact at hand that the guide rests nothing on makes no sheet wrong. */
static bool is_unused(const struct census *s, struct text name,
                      struct text guide) {
    bool figure = false;
    for (size_t i = 0; i < s->count; i++) {
        const struct census_figure *f = &s->figure[i];
        if (!f->shared || !text_is(name, f->name))
            continue;
        figure = true;
        for (size_t k = 0; k < f->use_count; k++)
            if (text_is(guide, f->use[k].guide))
                return false;
    }
    return figure;
}

enum { WORDS_TOLD = 100 }; /* bytes of a passage */

/* "said there: step 4: Run 10 AWG red ..." */
static void print_passage(struct arena *a, const char *what,
                          const struct passage *p) {
    printf("  %s: ", what);
    write_text(a, p->place);
    struct text words = p->words;
    if (words.len > WORDS_TOLD) {
        size_t end = WORDS_TOLD;
        while (end > 0 && words.start[end] != ' ')
            end--;
        words.len = end > 0 ? end : WORDS_TOLD;
    }
    fputs(": ", stdout);
    write_text(a, words);
    puts(words.len < p->words.len ? " \xE2\x80\xA6" : "");
}

/* Figures that differ, then the places that read otherwise; how many. */
static size_t print_differences(const struct census *s,
                                const struct issued *was,
                                const struct issued *now) {
    struct arena *a = s->arena;
    size_t count = 0;
    for (size_t i = 0; i < was->value_count; i++) {
        const struct issued_value *old = &was->value[i];
        const struct issued_value *new = value_of(now, old->name);
        /* Settings of the guide block are no figures. */
        if (old->name.start[0] == '.' || is_unused(s, old->name, now->guide) ||
            (new != NULL &&text_equal(new->printed, old->printed)))
            continue;
        printf("  %.*s was ", (int)old->name.len, old->name.start);
        write_text(a, old->printed);
        fputs(new == NULL ? ", and is no more" : ", is ", stdout);
        if (new != NULL)
            write_text(a, new->printed);
        putchar('\n');
        count++;
    }
    for (size_t i = 0; i < now->printed.count; i++) {
        const struct passage *p = &now->printed.list[i];
        if (has_words(was, p->words))
            continue;
        print_passage(a, "reads otherwise", p);
        count++;
    }
    for (size_t i = 0; i < was->printed.count; i++)
        if (!has_words(now, was->printed.list[i].words)) {
            print_passage(a, "said there", &was->printed.list[i]);
            count++;
        }
    return count;
}

/* Every file of procedures/issued/; those that are damaged are named. */
struct shelf_of_issued {
    struct compile compile;
    const struct issued **list;
    size_t count;
};

static struct shelf_of_issued read_issued(struct register_work *w) {
    const struct request *r = w->r;
    const char *const *path;
    struct shelf_of_issued out = {.compile = {.arena = r->arena,
                                              .diags = diag_new(r->arena),
                                              .library = r->root}};
    size_t count = issued_all(r->arena, r->root, &path);
    out.list = arena_alloc(r->arena, count + 1, sizeof(*out.list));
    for (size_t i = 0; i < count; i++) {
        bool missing;
        const struct issued *one = issued_read(&out.compile, path[i], &missing);
        if (one != NULL)
            out.list[out.count++] = one;
    }
    diag_print(out.compile.diags, stderr, r->colour);
    int status = diag_status(out.compile.diags);
    w->status = status > w->status ? status : w->status;
    return out;
}

static size_t latest_of(const struct shelf_of_issued *s, struct text id) {
    size_t best = 0;
    for (size_t i = 0; i < s->count; i++)
        if (text_equal(s->list[i]->id, id) && s->list[i]->revision > best)
            best = s->list[i]->revision;
    return best;
}

/* Of each guide the last sheet that was issued: is it still right? */
static void print_changed(struct register_work *w) {
    struct shelf_of_issued issued = read_issued(w);
    for (size_t i = 0; i < issued.count; i++) {
        const struct issued *was = issued.list[i];
        if (was->revision != latest_of(&issued, was->id))
            continue;
        const struct census_guide *g = guide_of(&w->census, was);
        printf("%.*s revision %zu, %.*s\n", (int)was->id.len, was->id.start,
               was->revision, (int)was->guide.len, was->guide.start);
        if (g == NULL) {
            puts("  its guide is no more, or is refused");
            w->status = w->status > STATUS_REFUSED ? w->status : STATUS_REFUSED;
        } else if (print_differences(&w->census, was, &g->now) == 0) {
            puts("  as it is now");
        } else {
            w->status = w->status > STATUS_REFUSED ? w->status : STATUS_REFUSED;
        }
    }
    if (issued.count == 0)
        puts("nothing was issued");
}

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
    size_t latest = latest_of(issued, i->id);
    if (latest > i->revision)
        printf("  superseded by revision %zu\n", latest);
    else if (p.issued)
        puts("  the last revision that was issued");
    return true;
}

/* A sheet in the hand: the code at its foot. */
static void print_sheet(struct register_work *w, const char *code) {
    struct shelf_of_issued issued = read_issued(w);
    for (size_t i = 0; i < issued.count; i++) {
        const struct issued *was = issued.list[i];
        if (!text_is(was->code, code))
            continue;
        size_t latest = latest_of(&issued, was->id);
        const struct census_guide *g = guide_of(&w->census, was);
        printf("%s is %.*s revision %zu, %.*s\n", code, (int)was->id.len,
               was->id.start, was->revision, (int)was->title.len,
               was->title.start);
        if (latest > was->revision)
            printf("  superseded by revision %zu\n", latest);
        else
            puts("  the last revision that was issued");
        if (g == NULL)
            puts("  its guide is no more, or is refused");
        else if (print_differences(&w->census, was, &g->now) == 0)
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
    w->status = w->status > STATUS_REFUSED ? w->status : STATUS_REFUSED;
}

/* As it is printed, however it was typed. */
static const char *in_capitals(struct arena *a, const char *code) {
    char *out = arena_copy(a, code, strlen(code));
    for (char *s = out; *s != '\0'; s++)
        if (*s >= 'a' && *s <= 'z')
            *s = (char)(*s - 'a' + 'A');
    return out;
}

/* One of its forms at a time; paper and template are for the printed one. */
static bool is_plain_question(const struct request *r) {
    int forms = r->changed + r->print + (r->sheet != NULL);
    bool paper =
        r->layout.paper != PAPER_BY_GUIDE || r->layout.template != NULL;
    return forms <= 1 && (r->print || !paper);
}

int command_register(const struct request *r) {
    if (!is_plain_question(r))
        return command_usage("--print, --changed and --sheet go one at a time; "
                             "--paper and --template go with --print");
    struct register_work w = {.r = r, .census = {.arena = r->arena}};
    read_guides(&w);
    if (r->sheet != NULL) {
        print_sheet(&w, in_capitals(r->arena, r->sheet));
    } else if (r->changed) {
        print_changed(&w);
    } else {
        int status = STATUS_GOOD;
        if (r->print) {
            status = register_print(r, &w.census, &w.circle);
        } else {
            print_figures(&w.census);
            print_missing(&w.census);
            print_conflicts(&w);
        }
        if (has_conflicts(&w) && status < STATUS_REFUSED)
            status = STATUS_REFUSED;
        w.status = status > w.status ? status : w.status;
    }
    return w.status;
}

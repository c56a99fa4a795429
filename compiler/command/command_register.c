/* command_register.c - register: every figure, its source, where it is printed;
 * what says otherwise; what is out of date. */
#include "base/arena.h"
#include "base/diag.h"
#include "base/shown.h"
#include "checks/catalogue.h"
#include "command/command.h"
#include "command/register_print.h"
#include "command/register_work.h"
#include "library/crew.h"
#include "library/faces.h"
#include "library/shelf.h"
#include "values/figure.h"

#include <stdio.h>
#include <string.h>

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
    census_settle(&w->census);
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
        fputs("  ", stdout);
        figure_write(stdout, f->name);
        fputs(" = ", stdout);
        figure_write(stdout, f->printed);
        if (f->origin[0] != '\0')
            printf(", %s", f->origin);
        if (f->source[0] != '\0')
            printf("  \"%s\"", f->source);
        printf("  line %zu\n", f->line);
        print_uses(f);
    }
}

/* Numbers that guides come after or before, and nobody has. */
static void print_missing(const struct census *s) {
    for (size_t i = 0; i < s->missing_count; i++) {
        const struct census_missing *m = &s->missing[i];
        struct text id = m->guide->now.id;
        printf("%s  %s, which %.*s comes %s\n",
               i > 0 ? "" : "\nno guide of this library\n", m->tie->id,
               (int)id.len, id.start, m->tie->after ? "after" : "before");
    }
}

/* The next guide that has the number of this one; NULL: no more. */
static const struct census_guide *twin_of(const struct census *s, size_t i) {
    for (size_t k = i + 1; k < s->guide_count; k++)
        if (text_equal(s->guide[k].now.id, s->guide[i].now.id))
            return &s->guide[k];
    return NULL;
}

static bool has_twins(const struct census *s) {
    for (size_t i = 0; i < s->guide_count; i++)
        if (twin_of(s, i) != NULL)
            return true;
    return false;
}

/* Figures that are stated twice, guides that can never be begun or that share
 * a number. */
static bool has_conflicts(const struct register_work *w) {
    return w->circle.count + w->census.conflict_count > 0 ||
           has_twins(&w->census);
}

static void print_conflicts(const struct register_work *w) {
    const struct census *s = &w->census;
    if (!has_conflicts(w))
        return;
    puts("\nconflicts");
    for (size_t i = 0; i < s->conflict_count; i++) {
        const struct census_figure *one = s->conflict[i].one;
        const struct census_figure *other = s->conflict[i].other;
        printf("  %s is ", one->key);
        figure_write(stdout, one->printed);
        printf(" at %s:%zu and ", one->path, one->line);
        figure_write(stdout, other->printed);
        printf(" at %s:%zu\n", other->path, other->line);
    }
    for (size_t i = 0; i < s->guide_count; i++)
        if (twin_of(s, i) != NULL)
            printf("  %.*s is the number of %s and of %s\n",
                   (int)s->guide[i].now.id.len, s->guide[i].now.id.start,
                   s->guide[i].path, twin_of(s, i)->path);
    if (w->circle.count > 0)
        printf("  each comes after the one before it, and the first after the "
               "last: %s\n",
               order_words(w->r->arena, &w->circle));
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
        register_sheet(&w, in_capitals(r->arena, r->sheet));
    } else if (r->changed) {
        register_changed(&w);
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

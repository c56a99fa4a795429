/* command_build.c - build and check: guides through the stages, one by one. */
#include "base/arena.h"
#include "base/diag.h"
#include "base/hand.h"
#include "base/shown.h"
#include "checks/catalogue.h"
#include "command/command.h"
#include "command/result.h"
#include "layout/display.h"
#include "library/crew.h"
#include "library/faces.h"
#include "library/guidework.h"
#include "library/index.h"
#include "library/shelf.h"
#include "library/stale.h"
#include "library/store.h"
#include "source/tree.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

/* Withdraws all PDFs of a refused guide, whatever template made them and for
 * which vehicle, and says so behind the messages about the guide; of a sound
 * one that only does not go on these pages, the one that this template made. */
static void withdraw(struct guidework *w, const char *stem, const char *pdf,
                     struct buf *told) {
    struct arena *a = w->compile.arena;
    const char *const *list = &pdf;
    size_t count = w->sound ? 1 : shelf_pdfs(a, w->root, stem, &list);
    for (size_t i = 0; i < count; i++) {
        const char *moved;
        store_withdraw(&w->compile, list[i], &moved);
        if (moved != NULL)
            buf_printf(told,
                       "bayleaf: %s was refused; its last PDF is now %s\n",
                       w->path, moved);
    }
}

/* The guide is sound, and so is what it says: it is the template's own words
 * that cannot be set. */
static bool is_templates_fault(const struct guidework *w) {
    const char *folder = shelf_place(w->compile.arena, w->root, "templates/");
    return w->sound && guidework_status(w) != STATUS_GOOD &&
           diag_status_outside(w->compile.diags, folder) == STATUS_GOOD;
}

/* Writes the PDF where it is another one, or withdraws the last ones, also of a
 * guide that cannot be read any more; returns the guide's status. A name
 * without a file is a slip.
 */
static int finish(struct guidework *w, const char *stem, const char *pdf,
                  struct buf *told, bool *same) {
    int status = guidework_status(w);
    bool refused = status == STATUS_REFUSED || status == STATUS_USAGE;
    *same = status == STATUS_GOOD && w->pdf != NULL &&
            store_has(pdf, w->pdf, w->pdf_len);
    if (status == STATUS_GOOD && w->pdf != NULL && !*same)
        store_write(&w->compile, pdf, w->pdf, w->pdf_len);
    else if (refused && !is_templates_fault(w) && access(w->path, F_OK) == 0)
        withdraw(w,
                 w->compile.only == NULL ? shelf_stem(w->compile.arena, w->path)
                                         : stem,
                 pdf, told);
    return guidework_status(w);
}

/* Another print of what the guide said before would lie beside the new one. */
static void withdraw_stale(struct guidework *w, const char *pdf,
                           const struct file_reads *shared, struct buf *told) {
    struct arena *a = w->compile.arena;
    if (shared != NULL)
        file_note_all(&w->compile, shared);
    const char *const *list, *moved;
    size_t count =
        stale_prints(a, w->root, shelf_stem(a, w->path), pdf, &w->reads, &list);
    for (size_t i = 0; i < count; i++) {
        store_withdraw(&w->compile, list[i], &moved);
        if (moved != NULL)
            buf_printf(told,
                       "bayleaf: %s was changed since %s was printed, which is "
                       "now %s; print it again\n",
                       w->path, list[i], moved);
    }
}

/* The PDFs of guides that are no longer there. */
static void withdraw_gone(const struct request *r, struct index *index,
                          struct compile *c) {
    const char *const *guide;
    size_t count = index_gone(index, &guide);
    for (size_t i = 0; i < count; i++) {
        const char *const *list, *moved;
        size_t prints = shelf_pdfs(r->arena, r->root,
                                   shelf_stem(r->arena, guide[i]), &list);
        for (size_t k = 0; k < prints; k++) {
            store_withdraw(c, list[k], &moved);
            if (moved != NULL)
                fprintf(stderr,
                        "bayleaf: %s is no longer there; its PDF is now %s\n",
                        guide[i], moved);
        }
    }
}

/* "mark 3" in the name of a file. */
static const char *slug(struct arena *a, const char *words) {
    char *out = arena_copy(a, words, strlen(words));
    for (char *s = out; *s != '\0'; s++)
        if (strchr(" /\\.:", *s) != NULL)
            *s = '-';
    return out;
}

/* For one vehicle the whole guide must hold first: it is what was written, and
 * what was issued. */
static struct guidework *work(const struct request *r,
                              struct guidework_task task) {
    if (r->only == NULL)
        return guidework_do(&task);
    struct guidework_task combined = task;
    combined.last = STAGE_LAYOUT;
    struct guidework *whole = guidework_do(&combined);
    if (guidework_status(whole) != STATUS_GOOD || whole->pages == NULL)
        return whole;
    struct layout_options options = r->layout;
    options.frozen = whole->pages->issued;
    guidework_end(whole);
    task.only = r->only;
    task.options = &options;
    return guidework_do(&task);
}

/* A guide of the run; what is found out about it before the work begins. */
struct errand {
    const struct request *r;
    const char *const *name;
    const char **root, **path;
    size_t count;
    bool print;
    /* What the guides of one library share, where it is without a message; a
     * guide by itself reads its own. */
    struct compile shared;
    const struct catalogue *catalogue;
    struct faces *faces;
    struct hand *hand;   /* for the only guide; or NULL */
    struct index *index; /* NULL: all are built */
    const char *how;
    size_t *pages;   /* by guide: of one that stands as it was; else 0 */
    const char **id; /* of those that were worked on so far; or NULL */
};

static struct guidework_task task_of(const struct errand *e, size_t i) {
    bool shared = strcmp(e->root[i], e->shared.library) == 0;
    return (struct guidework_task){.root = e->root[i],
                                   .path = e->path[i],
                                   .last =
                                       e->print ? STAGE_PRINT : STAGE_LAYOUT,
                                   .options = &e->r->layout,
                                   .catalogue = shared ? e->catalogue : NULL,
                                   .faces = e->faces,
                                   .hand = e->hand};
}

static void *run_errand(const void *context, size_t i) {
    const struct errand *e = context;
    return command_is_plain(e->name[i]) && e->pages[i] == 0
               ? work(e->r, task_of(e, i))
               : NULL;
}

static const char *stem_of(const struct errand *e, size_t i) {
    const struct request *r = e->r;
    const char *stem = shelf_stem(r->arena, e->path[i]);
    return r->only == NULL
               ? stem
               : arena_printf(r->arena, "%s.%s", stem, slug(r->arena, r->only));
}

static const char *pdf_of(const struct errand *e, size_t i) {
    return shelf_pdf(e->r->arena, e->root[i], stem_of(e, i),
                     e->r->layout.template);
}

/* A guide that said nothing need not be built again before something changes.
 */
static void remember(const struct errand *e, size_t i, struct guidework *w,
                     const char *pdf, int status) {
    if (e->index == NULL || strcmp(e->root[i], e->r->root) != 0)
        return;
    if (status != STATUS_GOOD || w->pages == NULL ||
        diag_count(w->compile.diags, LEVEL_WARNING) > 0) {
        index_tell(e->index, e->path[i], e->how, e->id[i], &w->reads);
        return;
    }
    if (e->catalogue != NULL)
        file_note_all(&w->compile, e->shared.reads);
    index_record(e->index, e->path[i], e->how, pdf, w->pages->count, e->id[i],
                 &w->reads);
}

static void say_pages(const char *pdf, size_t pages, bool same) {
    printf("%s  %zu page%s%s\n", pdf, pages, pages == 1 ? "" : "s",
           same ? ", as it was" : "");
}

/* A guide of this number that the index knows. One that this run works on after
 * it is told itself. */
static const char *twin_outside(const struct errand *e, size_t i,
                                const char *id) {
    const char *other = index_twin(e->index, e->path[i], id);
    for (size_t k = i + 1; k < e->count && other != NULL; k++)
        if (e->pages[k] == 0 && strcmp(e->path[k], other) == 0)
            other = NULL;
    return other;
}

/* Its number is known; another guide of the library may have it, too. */
static void question_id(const struct errand *e, size_t i, struct guidework *w) {
    const struct guide *g = w->guide;
    const struct entry *id = g == NULL || g->identity == NULL
                                 ? NULL
                                 : tree_setting(g->identity, "id");
    if (id == NULL || id->choice_count == 0)
        return;
    e->id[i] =
        text_cstr(e->r->arena, text_squeezed(e->r->arena, id->choices[0].text));
    const char *other = NULL;
    for (size_t k = 0; k < i && other == NULL; k++)
        if (e->id[k] != NULL && strcmp(e->id[k], e->id[i]) == 0 &&
            strcmp(e->path[k], e->path[i]) != 0 &&
            strcmp(e->root[k], e->root[i]) == 0)
            other = e->path[k];
    if (other == NULL && e->index != NULL &&
        strcmp(e->root[i], e->r->root) == 0)
        other = twin_outside(e, i, e->id[i]);
    if (other != NULL)
        diag_add(w->compile.diags, DIAG_ID_TWICE, id->at,
                 "%s is that of %s, too", e->id[i], other);
}

/* What the guide says and leaves, once its work is done. */
static int do_guide(const struct errand *e, size_t i, struct guidework *w,
                    struct results *results, struct shown *shown) {
    const struct request *r = e->r;
    const char *path = e->path[i];
    bool print = e->print;
    const char *stem = stem_of(e, i), *pdf = pdf_of(e, i);
    struct buf told = buf_in(r->arena);
    bool same = false;
    question_id(e, i, w);
    int status =
        print ? finish(w, stem, pdf, &told, &same) : guidework_status(w);
    if (print && status == STATUS_GOOD && !same)
        withdraw_stale(w, pdf, e->catalogue == NULL ? NULL : e->shared.reads,
                       &told);
    status = guidework_status(w);
    size_t before = diag_print_new(w->compile.diags, shown, stderr, r->colour);
    if (before > 0 && !is_templates_fault(w))
        fprintf(stderr, "bayleaf: %s: %zu message%s as above\n", path, before,
                before == 1 ? "" : "s");
    fputs(buf_cstr(&told), stderr);
    size_t pages = w->pages == NULL ? 0 : w->pages->count;
    if (r->json)
        result_guide(results, path, print && status == 0 ? pdf : NULL, pages,
                     status);
    else if (print && status == STATUS_GOOD)
        say_pages(pdf, pages, same);
    remember(e, i, w, pdf, status);
    guidework_end(w);
    return status;
}

/* One that stands as it was built. */
static int pass_guide(const struct errand *e, size_t i,
                      struct results *results) {
    if (e->r->json)
        result_guide(results, e->path[i], pdf_of(e, i), e->pages[i],
                     STATUS_GOOD);
    else
        say_pages(pdf_of(e, i), e->pages[i], true);
    return STATUS_GOOD;
}

/* How far it has come, on a terminal and nowhere else. */
static void show_progress(size_t done, size_t count, bool shown) {
    if (shown)
        fprintf(stderr, done < count ? "\r%zu of %zu\033[K" : "\r\033[K", done,
                count);
}

/* Template, paper and vehicle as one word. */
static const char *how_of(const struct request *r) {
    const char *template = r->layout.template;
    return arena_printf(
        r->arena, "%s,%d,%s", template == NULL ? "shop" : template,
        (int)r->layout.paper, r->only == NULL ? "" : slug(r->arena, r->only));
}

/* Which guides need no work. */
static void open_index(struct errand *e) {
    const struct request *r = e->r;
    e->pages = arena_alloc(r->arena, e->count, sizeof *e->pages);
    e->id = arena_alloc(r->arena, e->count, sizeof(*e->id));
    e->how = how_of(r);
    if (!e->print || r->root == NULL || r->only != NULL)
        return; /* of one vehicle the whole guide was read, too */
    e->index = index_open(r->arena, r->root);
    for (size_t i = e->count; i-- > 0;) /* backward, for twin_outside() */
        if (command_is_plain(e->name[i]) && strcmp(e->root[i], r->root) == 0 &&
            index_holds(e->index, e->path[i], e->how, pdf_of(e, i),
                        &e->pages[i], &e->id[i]) &&
            twin_outside(e, i, e->id[i]) != NULL)
            e->pages[i] = 0;
}

static struct errand errand_of(const struct request *r, const char *const *list,
                               size_t count, bool print) {
    struct errand e = {.r = r, .name = list, .count = count, .print = print};
    e.root = arena_alloc(r->arena, count, sizeof(*e.root));
    e.path = arena_alloc(r->arena, count, sizeof(*e.path));
    for (size_t i = 0; i < count; i++) {
        e.root[i] = shelf_root_of(r->arena, r->root, list[i]);
        e.path[i] = shelf_guide(r->arena, e.root[i], list[i]);
    }
    e.shared = (struct compile){.arena = r->arena,
                                .diags = diag_new(r->arena),
                                .library = count > 0 ? e.root[0] : "."};
    open_index(&e);
    size_t work = 0;
    for (size_t i = 0; i < count; i++)
        work += e.pages[i] == 0;
    if (work == 1 && hand_processors() > 1)
        e.hand = hand_new();
    if (work > 1) {
        e.shared.reads = arena_alloc(r->arena, 1, sizeof *e.shared.reads);
        e.catalogue = catalogue_shared(&e.shared);
        e.faces = faces_new();
    }
    return e;
}

/* The template of each library that guides are of; told once, and none of them
 * is touched when it is wrong. */
static int check_templates(const struct request *r, const char *const *list,
                           size_t count) {
    struct shown *known = shown_new(r->arena), *roots = shown_new(r->arena);
    int worst = STATUS_GOOD;
    for (size_t i = 0; i < count; i++) {
        const char *root = shelf_root_of(r->arena, r->root, list[i]);
        if (!command_is_plain(list[i]) || shown_before(roots, text_of(root)))
            continue;
        struct compile c = {
            .arena = r->arena, .diags = diag_new(r->arena), .library = root};
        if (layout_template(&c, &r->layout))
            continue;
        diag_print_new(c.diags, known, stderr, r->colour);
        if (diag_status(c.diags) > worst)
            worst = diag_status(c.diags);
    }
    return worst;
}

static int do_guides(const struct request *r, bool print) {
    const char *const *list = r->word;
    size_t count = r->word_count;
    if (count == 0)
        count = shelf_guides(r->arena, r->root, &list);
    if (count == 0)
        return command_usage("no guides in procedures/");
    int worst = check_templates(r, list, count);
    if (print && r->root != NULL)
        store_sweep(r->arena, shelf_pdf(r->arena, r->root, "", NULL));
    struct results *results = r->json ? result_begin() : NULL;
    if (worst != STATUS_GOOD) {
        if (r->json)
            result_end(results, stdout);
        return worst;
    }
    struct shown *shown = shown_new(r->arena);
    struct errand e = errand_of(r, list, count, print);
    bool progress = count > 1 && isatty(STDERR_FILENO);
    struct crew *crew = crew_start(count, run_errand, &e);
    if (crew == NULL)
        arena_exhausted();
    for (size_t i = 0; i < count; i++) {
        show_progress(i, count, progress);
        struct guidework *w = crew_take(crew, i);
        show_progress(count, count, progress);
        int status = w != NULL ? do_guide(&e, i, w, results, shown)
                     : e.pages[i] > 0
                         ? pass_guide(&e, i, results)
                         : command_usage("no plain text: '%s'", list[i]);
        if (status > worst)
            worst = status;
    }
    crew_end(crew);
    faces_free(e.faces);
    hand_free(e.hand);
    struct compile own = {.arena = r->arena, .diags = diag_new(r->arena)};
    withdraw_gone(r, e.index, &own);
    diag_print(own.diags, stderr, r->colour);
    if (diag_status(own.diags) > worst)
        worst = diag_status(own.diags);
    index_close(e.index, &own);
    if (r->json)
        result_end(results, stdout);
    return worst;
}

int command_build(const struct request *r) {
    return do_guides(r, true);
}

int command_check(const struct request *r) {
    return do_guides(r, false);
}

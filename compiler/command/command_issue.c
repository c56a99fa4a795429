/* command_issue.c - issue: freezes a revision under procedures/issued/.
 *
 * The guide must be released and hold; a revision is issued once, and never
 * changed. Its PDF is written with it, so that what is handed out says so. */
#include "base/arena.h"
#include "base/diag.h"
#include "base/shown.h"
#include "command/command.h"
#include "layout/display.h"
#include "library/freeze.h"
#include "library/guidework.h"
#include "library/shelf.h"
#include "library/store.h"
#include "source/tree.h"

#include <stdio.h>
#include <string.h>

static void refuse(struct guidework *w, const char *why) {
    struct span at =
        w->guide->identity == NULL ? (struct span){0} : w->guide->identity->at;
    diag_add(w->compile.diags, DIAG_ISSUE_REFUSED, at, "%s", why);
}

/* The same revision again is no mistake when it prints the same. */
static void compare(struct guidework *w, const char *path,
                    const struct issued *now, bool *again) {
    bool missing;
    const struct issued *was = issued_read(&w->compile, path, &missing);
    if (was == NULL)
        return;
    const char *other = issued_difference(w->compile.arena, was, now);
    *again = other == NULL && text_equal(was->guide, now->guide);
    if (!text_equal(was->guide, now->guide))
        refuse(w, arena_printf(w->compile.arena,
                               "%s is of another guide, %.*s; give this one "
                               "another id",
                               path, (int)was->guide.len, was->guide.start));
    else if (other != NULL)
        refuse(w, arena_printf(w->compile.arena,
                               "revision %zu was issued with another text, "
                               "first at %s; raise the revision",
                               now->revision, other));
}

/* Writes it, or finds that it is there; the PDF goes with it. */
static void freeze(struct guidework *w, const struct passages *printed,
                   const char *path, const char *pdf, bool *again) {
    struct compile *c = &w->compile;
    struct issued now =
        freeze_whole(c->arena, w->root, w->guide, w->values, w->pages, printed);
    struct text bytes = issued_write(c->arena, &now);
    const char *place = shelf_place(c->arena, w->root, path);
    bool exists = false;
    if (!store_create(c, place, (const unsigned char *)bytes.start, bytes.len,
                      &exists) &&
        !exists)
        return;
    if (exists)
        compare(w, path, &now, again);
    if (diag_status(c->diags) == STATUS_GOOD)
        store_write(c, pdf, w->pdf, w->pdf_len);
}

static int issue(const struct request *r, const char *name,
                 struct shown *shown) {
    const char *root = shelf_root_of(r->arena, r->root, name);
    const char *guide = shelf_guide(r->arena, root, name);
    struct passages printed = {.list = NULL};
    struct layout_options options = {.passages = &printed, .frozen = true};
    struct guidework *w = guidework_run(root, guide, STAGE_PRINT, &options);
    struct arena *a = w->compile.arena;
    const char *path = NULL;
    bool again = false;
    if (w->guide != NULL && guidework_status(w) == STATUS_GOOD) {
        struct issued head = freeze_head(a, w->guide, &printed);
        path = issued_path(a, head.id, head.revision);
        if (path == NULL)
            refuse(w, "its id is no name of a file: letters, digits, '.', '_' "
                      "and '-'");
        else if (!freeze_is_released(a, w->guide))
            refuse(w, "only a released guide is: write status: released, and "
                      "who approved it");
        else
            freeze(w, &printed, path,
                   shelf_pdf(r->arena, root, w->guide->stem, NULL), &again);
    }
    int status = guidework_status(w);
    diag_print_new(w->compile.diags, shown, stderr, r->colour);
    if (status == STATUS_GOOD)
        printf("%s  %s%s\n", shelf_place(a, root, path), w->pages->code,
               again ? ", as it was" : "");
    guidework_end(w);
    return status;
}

int command_issue(const struct request *r) {
    struct shown *shown = shown_new(r->arena);
    if (r->root != NULL) /* what a killed run left */
        store_sweep(r->arena,
                    shelf_place(r->arena, r->root, "procedures/issued/left"));
    int worst = STATUS_GOOD;
    for (size_t i = 0; i < r->word_count; i++) {
        int status = command_is_plain(r->word[i])
                         ? issue(r, r->word[i], shown)
                         : command_usage("no plain text: '%s'", r->word[i]);
        if (status > worst)
            worst = status;
    }
    return worst;
}

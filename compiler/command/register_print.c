/* register_print.c - the register on paper. */
#include "command/register_print.h"

#include "base/arena.h"
#include "base/diag.h"
#include "base/list.h"
#include "layout/display.h"
#include "layout/listing.h"
#include "library/shelf.h"
#include "library/store.h"

#include <stdio.h>
#include <string.h>

static struct listing_part *add_part(struct arena *a, struct listing *l,
                                     const char *title) {
    l->part = list_grown(a, l->part, l->count, &l->room, sizeof *l->part);
    struct listing_part *p = &l->part[l->count++];
    *p = (struct listing_part){.title = title};
    return p;
}

static struct listing_row *add_row(struct arena *a, struct listing_part *p) {
    p->row = list_grown(a, p->row, p->count, &p->room, sizeof *p->row);
    struct listing_row *row = &p->row[p->count++];
    *row = (struct listing_row){{NULL}};
    return row;
}

/* "headlamp-relay: step 3 (page 5), Torque (page 4); wheel-fitting: ..." */
static const char *uses_of(struct arena *a, const struct census_figure *f) {
    struct buf b = buf_in(a);
    const char *guide = "";
    for (size_t i = 0; i < f->use_count; i++) {
        const struct census_use *u = &f->use[i];
        if (strcmp(guide, u->guide) == 0)
            buf_puts(&b, ", ");
        else
            buf_printf(&b, "%s%s: ", i == 0 ? "" : "; ", u->guide);
        buf_puts(&b, u->place);
        if (u->page > 0)
            buf_printf(&b, " (page\xC2\xA0%d)", u->page);
        guide = u->guide;
    }
    return f->use_count == 0 ? "no guide uses it" : buf_cstr(&b);
}

static void add_figures(struct arena *a, struct listing *l,
                        const struct census *s) {
    const char *path = "";
    struct listing_part *p = NULL;
    for (size_t i = 0; i < s->count; i++) {
        const struct census_figure *f = &s->figure[i];
        if (p == NULL || strcmp(path, f->path) != 0) {
            p = add_part(a, l, f->path);
            p->head[0] = "name";
            p->head[1] = "figure";
            p->head[2] = "source";
            p->head[3] = "used by";
        }
        path = f->path;
        struct listing_row *row = add_row(a, p);
        row->cell[0] = f->name;
        row->cell[1] = f->printed;
        row->cell[2] = f->origin[0] == '\0' ? f->source
                       : f->source[0] == '\0'
                           ? f->origin
                           : arena_printf(a, "%s: %s", f->origin, f->source);
        row->cell[3] = uses_of(a, f);
    }
}

static const char *stated(struct arena *a, const struct census_figure *f) {
    return arena_printf(a, "%s (%s:%zu)", f->printed, f->path, f->line);
}

static void add_conflicts(struct arena *a, struct listing *l,
                          const struct census *s) {
    if (s->conflict_count == 0)
        return;
    struct listing_part *p = add_part(a, l, "Conflicts");
    p->words = "Two files state one thing differently.";
    p->head[0] = "name";
    p->head[1] = "one figure";
    p->head[2] = "the other";
    for (size_t i = 0; i < s->conflict_count; i++) {
        struct listing_row *row = add_row(a, p);
        row->cell[0] = s->conflict[i].one->key;
        row->cell[1] = stated(a, s->conflict[i].one);
        row->cell[2] = stated(a, s->conflict[i].other);
    }
}

static void add_circle(struct arena *a, struct listing *l,
                       const struct circle *c) {
    if (c->count > 0)
        add_part(a, l, "Guides in a circle")->words = arena_printf(
            a,
            "Each comes after the one before it, and the first after the "
            "last: %s.",
            order_words(a, c));
}

static void add_missing(struct arena *a, struct listing *l,
                        const struct census *s) {
    if (s->missing_count == 0)
        return;
    struct listing_part *p = add_part(a, l, "No guide of this library");
    p->head[0] = "number";
    p->head[1] = "named by";
    for (size_t i = 0; i < s->missing_count; i++) {
        struct listing_row *row = add_row(a, p);
        row->cell[0] = s->missing[i].tie->id;
        row->cell[1] = s->missing[i].guide->stem;
    }
}

int register_print(const struct request *r, const struct census *s,
                   const struct circle *circle) {
    struct arena *a = r->arena;
    struct compile c = {.arena = a, .diags = diag_new(a), .library = r->root};
    struct listing list = {
        .title = "Register of figures",
        .words = arena_printf(a,
                              "What guides state and print, by file: %zu "
                              "figures, %zu guides.",
                              s->count, s->guide_count)};
    add_conflicts(a, &list, s);
    add_circle(a, &list, circle);
    add_missing(a, &list, s);
    add_figures(a, &list, s);
    const char *path = shelf_place(a, r->root, "build/register/figures.pdf");
    store_sweep(a, path);
    struct pages *pages = listing_pages(&c, &list, &r->layout);
    size_t len = 0;
    const unsigned char *pdf =
        pages == NULL ? NULL : print_pdf(&c, pages, &len);
    bool good = pdf != NULL && store_write(&c, path, pdf, len);
    diag_print(c.diags, stderr, r->colour);
    if (good)
        printf("%s  %zu page%s\n", path, pages->count,
               pages->count == 1 ? "" : "s");
    return diag_status(c.diags);
}

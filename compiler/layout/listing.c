/* listing.c - tables to pages, without a guide. */
#include "layout/listing.h"

#include "base/arena.h"
#include "base/diag.h"
#include "layout/bind.h"
#include "layout/paginate.h"
#include "layout/table.h"

static const struct span nowhere;

static void set_words(struct leaf *l, const char *words) {
    struct rich r = {0};
    struct type type = l->style.note;
    if (words == NULL)
        return;
    leaf_add(l, &r, type, FACE_REGULAR, words);
    flow_paragraph(&l->flow, &r, 0, leaf_width(l), type, nowhere);
    flow_space(&l->flow, 4);
}

/* A figure is not parted from its unit nor in its range, as in a guide; only
 * words that would take too much of the page are. */
static void hold_figures(struct leaf *l, struct rich *r) {
    const double most = leaf_width(l) / 4;
    for (size_t k = 0; k < r->count; k++)
        r->chunk[k].whole = true;
    bool fits = words_of(&l->composer, r)->widest <= most;
    for (size_t k = 0; k < r->count; k++) {
        r->chunk[k].whole = fits;
        r->chunk[k].held = !fits;
    }
}

static void set_table(struct leaf *l, const struct listing_part *p) {
    struct arena *a = l->composer.arena;
    struct type type = l->style.least;
    size_t columns = 0;
    while (columns < LISTING_COLUMNS && p->head[columns] != NULL)
        columns++;
    if (p->count == 0)
        return;
    struct table *t = table_new(a, columns, text_of(p->title), nowhere);
    t->drop_empty = true;
    for (size_t k = 0; k < columns; k++)
        leaf_add(l, &t->head[k], type, FACE_BOLD, p->head[k]);
    for (size_t i = 0; i < p->count; i++) {
        struct table_row *row = table_add(a, t, nowhere);
        for (size_t k = 0; k < columns; k++)
            if (p->row[i].cell[k] != NULL)
                leaf_add(l, &row->cell[k], type,
                         k == 0 ? FACE_BOLD : FACE_REGULAR, p->row[i].cell[k]);
        hold_figures(l, &row->cell[1]);
    }
    table_set(&l->flow, t, 0, leaf_width(l), type);
    flow_space(&l->flow, 8);
}

static void set_title(struct leaf *l, const struct listing *list) {
    struct rich r = {0};
    struct type type = l->style.title;
    struct tagger *tags = l->composer.tags;
    leaf_add(l, &r, type, FACE_BOLD, list->title);
    size_t outer = tag_open(tags, TAG_TITLE, (struct text){NULL, 0});
    flow_paragraph(&l->flow, &r, 0, leaf_width(l), type, nowhere);
    tag_close(tags, outer);
    flow_bond(&l->flow, BOND_FAST);
    flow_space(&l->flow, 6);
    set_words(l, list->words);
}

static struct pages *make_pages(struct leaf *l, const struct listing *list) {
    const struct foot foot = {.id = list->title,
                              .revision = "",
                              .title = "",
                              .variants = "",
                              .at = nowhere};
    const struct foot_lines *lines = bind_foot(l, &foot);
    l->flow = (struct flow){.c = &l->composer};
    tag_begin(l->composer.tags, l->composer.arena);
    set_title(l, list);
    for (size_t i = 0; i < list->count; i++) {
        leaf_heading(l, text_of(list->part[i].title), NULL, nowhere);
        set_words(l, list->part[i].words);
        set_table(l, &list->part[i]);
    }
    const size_t *starts;
    size_t count = paginate_break(&l->flow, &starts);
    struct pages *out = bind_pages(l, lines, starts, count);
    out->title = text_of(list->title);
    out->subject = text_of(list->words == NULL ? "" : list->words);
    bind_to_paper(out, l->composer.arena, l->sheet);
    return out;
}

struct pages *listing_pages(struct compile *c, const struct listing *list,
                            const struct layout_options *options) {
    struct tagger tags = {.arena = c->arena};
    struct leaf l = {.guide = NULL};
    if (!bind_open(&l, c, &tags, options, false))
        return NULL;
    struct pages *out = make_pages(&l, list);
    bind_close(&l);
    return diag_status(c->diags) == 0 ? out : NULL;
}

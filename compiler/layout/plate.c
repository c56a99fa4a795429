/* plate.c - images on the page.
 *
 * A file is opened once for all passes. It is placed as wide as the author
 * says, else at 150 pixels an inch up to the width of the text, and brought
 * down to 300 pixels an inch: more is lost on paper. */
#include "layout/plate.h"

#include "base/arena.h"
#include "base/diag.h"
#include "image/image.h"
#include "layout/refer.h"
#include "layout/shape.h"
#include "layout/table.h"
#include "source/file.h"
#include "values/quantity.h"

#include <math.h>
#include <stdlib.h>

static const double inch = 72, usual_dpi = 150, most_dpi = 300;
static const double highest = 430; /* leaves room for caption and key */
static const double mark_radius = 8.5;

struct plate {
    const void *owner;             /* the block or inline */
    const struct picture *picture; /* NULL after a message */
    double width, height;          /* in points, as placed */
};

struct plate_store {
    struct plate *list;
    size_t count, room;
};

static double natural_width(const struct image *im, double room) {
    return fmin(image_width(im) / usual_dpi * inch, room);
}

/* Opens, places and shrinks. `wanted` is 0 where the author leaves it to us. */
static struct plate make(struct leaf *l, const void *owner, struct text path,
                         struct span at, double wanted, double room) {
    struct composer *c = &l->composer;
    struct plate p = {.owner = owner};
    struct image_report report;
    size_t len;
    const char *bytes =
        file_read_bytes(l->compile, path, at, IMAGE_BYTES_MAX, &len);
    if (bytes == NULL)
        return p;
    const struct image *im =
        image_open(c->arena, (const unsigned char *)bytes, len, &report);
    if (im == NULL) {
        image_tell(c->diags, at, text_cstr(c->arena, path), &report);
        return p;
    }
    double ratio = (double)image_height(im) / image_width(im);
    p.width = wanted > 0 ? wanted : natural_width(im, room);
    if (wanted == 0)
        p.width = fmin(p.width, highest / ratio);
    p.height = p.width * ratio;
    if (p.width > room + 0.01 || p.height > highest + 0.01) {
        diag_add(c->diags, p.width > room ? DIAG_TOO_WIDE : DIAG_TOO_TALL, at,
                 "the image takes %.0f pt x %.0f pt, there are %.0f pt x %.0f "
                 "pt",
                 ceil(p.width), ceil(p.height), floor(room), highest);
        return p;
    }
    p.picture =
        image_fit(c->arena, im, (unsigned)ceil(p.width / inch * most_dpi),
                  (unsigned)ceil(p.height / inch * most_dpi), &report);
    if (p.picture == NULL)
        image_tell(c->diags, at, text_cstr(c->arena, path), &report);
    return p;
}

static const struct plate *plate_of(struct leaf *l, const void *owner,
                                    struct text path, struct span at,
                                    double wanted, double room) {
    struct arena *a = l->composer.arena;
    if (l->plates == NULL)
        l->plates = arena_alloc(a, 1, sizeof *l->plates);
    struct plate_store *s = l->plates;
    for (size_t i = 0; i < s->count; i++)
        if (s->list[i].owner == owner)
            return &s->list[i];
    if (s->count == s->room) {
        s->room = s->room == 0 ? 4 : s->room * 2;
        s->list = arena_grow(a, s->list, s->count, s->room, sizeof *s->list);
    }
    s->list[s->count] = make(l, owner, path, at, wanted, room);
    return &s->list[s->count++];
}

static struct slab *draw(struct leaf *l, const struct plate *p, double x,
                         struct text words, struct span at) {
    flow_space(&l->flow, 8);
    struct slab *s = flow_slab(&l->flow, p->height, at);
    struct op *op = slab_op(&l->composer, s, OP_IMAGE);
    op->x = x;
    op->width = p->width;
    op->height = p->height;
    op->picture = p->picture;
    op->text = words;
    slab_box(&l->composer, s, x, 0, p->width, p->height, 0.5);
    flow_space(&l->flow, 5);
    return s;
}

/* A percentage of the side, from the cell as it prints. */
static double share(struct leaf *l, const struct block *b,
                    const struct entry *row, const char *column,
                    variant_set variants) {
    const char *text = values_print_cell(l->values, l->composer.arena, b, row,
                                         column, variants);
    return text == NULL ? 0 : strtod(text, NULL) / 100;
}

static void draw_mark(struct leaf *l, struct slab *s, double x, double y,
                      struct text number) {
    const struct composer *c = &l->composer;
    double size = l->style.note.size;
    double wide = shape_width(c->shaper, FACE_BOLD, size, number);
    slab_disc(c, s, x, y, mark_radius, 0, style_white());
    slab_disc(c, s, x, y, mark_radius, 1.2, style_black());
    slab_text(c, s, x - wide / 2, y + size * shape_cap_height(FACE_BOLD) / 2,
              FACE_BOLD, size, style_black(), number);
}

/* Marks on the image, and the key below it. */
static void set_marks(struct leaf *l, const struct block *b, struct slab *s,
                      const struct plate *p, const struct spot *spot) {
    struct arena *a = l->composer.arena;
    struct table *key = table_new(a, 2, text_of("Key"), b->at);
    struct spot cell = *spot;
    cell.type = l->style.note;
    cell.boxes = NULL;
    for (size_t i = 0; i < b->entry_count; i++) {
        const struct entry *e = &b->entries[i];
        if (e->kind != ENTRY_ROW)
            continue;
        const struct cell *mark = tree_cell(b, e, "mark");
        const struct cell *part = tree_cell(b, e, "part");
        cell.variants = spot->variants & values_tagged(l->values, &e->tags);
        if (cell.variants == 0 || mark == NULL || part == NULL)
            continue;
        draw_mark(
            l, s, spot->x + share(l, b, e, "across", cell.variants) * p->width,
            share(l, b, e, "down", cell.variants) * p->height, mark->text);
        struct table_row *row = table_add(a, key, e->at);
        rich_add(a, &row->cell[0], leaf_tone(cell.type, FACE_BOLD), mark->text,
                 mark->at)
            ->whole = true;
        prose_add_cell(l, &row->cell[1], part, &cell);
    }
    static const double shares[] = {0.08, 0.92};
    key->share = shares;
    flow_space(&l->flow, 4);
    flow_bond(&l->flow, BOND_FAST);
    table_set(&l->flow, key, spot->x, spot->width, cell.type);
}

static double wanted_width(const struct leaf *l, const struct block *b) {
    const struct named *n = values_of(l->values, b, "width");
    for (size_t i = 0; n != NULL && i < 64; i++)
        if ((l->applies & (variant_set)1 << i) != 0)
            return n->by_variant[i].type == VALUE_QUANTITY
                       ? n->by_variant[i].quantity->nominal / 0.0254 * inch
                       : 0;
    return 0;
}

void plate_set_block(struct leaf *l, const struct block *b,
                     const struct spot *spot) {
    struct arena *a = l->composer.arena;
    struct spot wide = *spot;
    wide.width = leaf_width(l) - spot->x;
    const struct plate *p = plate_of(l, b, leaf_block_setting(l, b, "image"),
                                     b->at, wanted_width(l, b), wide.width);
    if (p->picture == NULL)
        return;
    const struct entry *title = tree_setting(b, "title");
    struct rich caption = {0};
    struct spot words = wide;
    words.type = l->style.note;
    words.boxes = NULL;
    if (b->name.len > 0)
        leaf_add(
            l, &caption, words.type, FACE_BOLD,
            arena_printf(a, "Figure %.*s ", (int)b->name.len, b->name.start));
    if (title != NULL)
        prose_add_choices(l, &caption, title->choices, title->choice_count,
                          &words);
    size_t from = l->flow.count;
    struct slab *s =
        draw(l, p, spot->x, leaf_block_setting(l, b, "title"), b->at);
    if (b->node != NULL)
        s->anchor = refer_node(l, b->node);
    flow_bond(&l->flow, BOND_FAST);
    flow_paragraph(&l->flow, &caption, spot->x, wide.width, words.type, b->at);
    set_marks(l, b, s, p, &wide);
    flow_together(&l->flow, from, BOND_FAST);
    l->flow.bond = BOND_NONE; /* there may be no key */
    flow_space(&l->flow, 10);
}

void plate_set_image(struct leaf *l, const struct inlines *image,
                     const struct spot *spot) {
    double room = leaf_width(l) - spot->x;
    const struct plate *p = plate_of(l, image, image->url, image->at, 0, room);
    if (p->picture == NULL)
        return;
    struct rich caption = {0};
    struct spot words = *spot;
    words.type = l->style.note;
    words.boxes = NULL;
    prose_add(l, &caption, image->first, &words);
    draw(l, p, spot->x, prose_plain(l, image->first), image->at);
    flow_bond(&l->flow, BOND_FAST);
    flow_paragraph(&l->flow, &caption, spot->x, room, words.type, image->at);
    l->flow.bond = BOND_NONE;
    flow_space(&l->flow, 8);
}

/* plate.c - images on the page.
 *
 * An image is as wide as the author says, else it has 150 pixels an inch and is
 * no wider than the text. It is brought down to 300 pixels an inch: more is
 * lost on paper. The key stands beside it where there is room, else below. */
#include "layout/plate.h"

#include "base/arena.h"
#include "base/diag.h"
#include "image/image.h"
#include "layout/callout.h"
#include "layout/refer.h"
#include "layout/revise.h"
#include "layout/sheet.h"
#include "source/gallery.h"
#include "values/quantity.h"

#include <math.h>

static const double inch = 72, millimetre = 72 / 25.4;
/* Common practice, no source. */
static const double least_dpi = 100, usual_dpi = 150, most_dpi = 300;
static const double highest = 430; /* leaves room for caption and key */
static const double narrowest = 10, gap = 16, key_least = 150;

/* An image brought to its size, once for all passes. */
struct plate {
    const struct image *image;
    double width, height;          /* in points, as placed */
    const struct picture *picture; /* NULL after a message */
};

struct plate_store {
    struct plate *list;
    size_t count, room;
};

static const struct picture *fit(struct leaf *l, const struct plate *p,
                                 struct text path, struct span at) {
    struct composer *c = &l->composer;
    struct image_report report;
    const struct picture *made = image_fit(
        c->arena, p->image, (unsigned)ceil(p->width / inch * most_dpi),
        (unsigned)ceil(p->height / inch * most_dpi), &report);
    if (made == NULL)
        image_tell(c->diags, at, text_cstr(c->arena, path), &report);
    return made;
}

static const struct plate *plate_of(struct leaf *l, const struct image *im,
                                    double width, struct text path,
                                    struct span at) {
    struct arena *a = l->composer.arena;
    if (l->plates == NULL)
        l->plates = arena_alloc(a, 1, sizeof *l->plates);
    struct plate_store *s = l->plates;
    for (size_t i = 0; i < s->count; i++)
        if (s->list[i].image == im && s->list[i].width == width)
            return &s->list[i];
    if (s->count == s->room) {
        s->room = s->room == 0 ? 4 : s->room * 2;
        s->list = arena_grow(a, s->list, s->count, s->room, sizeof *s->list);
    }
    struct plate *p = &s->list[s->count++];
    p->image = im;
    p->width = width;
    p->height = width * image_height(im) / image_width(im);
    p->picture = fit(l, p, path, at);
    return p;
}

static double usual_width(const struct image *im, double room) {
    double ratio = (double)image_height(im) / image_width(im);
    double width = fmin(image_width(im) / usual_dpi * inch, room);
    return fmin(width, highest / ratio);
}

static const char *length_text(struct arena *a, double points) {
    return arena_printf(a, "%.1f in (%.0f mm)", points / inch,
                        points / millimetre);
}

/* What the author wants, or 0 after a message. */
static double checked_width(struct leaf *l, const struct image *im,
                            double width, double room, struct span at) {
    struct composer *c = &l->composer;
    struct arena *a = c->arena;
    double height = width * image_height(im) / image_width(im);
    if (width < narrowest * millimetre)
        diag_add(c->diags, DIAG_SETTING_VALUE, at,
                 "an image is at least %g mm wide", narrowest);
    else if (width > room + 0.01)
        diag_add(c->diags, DIAG_TOO_WIDE, at, "there is room for %s",
                 length_text(a, room));
    else if (height > highest + 0.01)
        diag_add(c->diags, DIAG_TOO_TALL, at,
                 "the image becomes %s high, there is room for %s; make it "
                 "narrower",
                 length_text(a, height), length_text(a, highest));
    else
        return width;
    return 0;
}

static void warn_coarse(struct leaf *l, const struct image *im, double width,
                        struct span at) {
    double dpi = image_width(im) / (width / inch);
    if (dpi < least_dpi)
        diag_add(l->composer.diags, DIAG_IMAGE_COARSE, at,
                 "%.0f pixels an inch; it prints well from %.0f", dpi,
                 usual_dpi);
}

/* The image and all that belongs to it: one slab, which no page break parts. */
static struct slab *draw(struct leaf *l, const struct plate *p,
                         struct text words, double x, struct span at) {
    const struct composer *c = &l->composer;
    struct slab *s = slab_new(c, p->height, at);
    size_t outer = tag_open(c->tags, TAG_FIGURE, words);
    struct op *op = slab_op(c, s, OP_IMAGE);
    tag_close(c->tags, outer);
    op->x = x;
    op->width = p->width;
    op->height = p->height;
    op->picture = p->picture;
    op->text = words;
    slab_box(c, s, x, 0, p->width, p->height, 0.5);
    return s;
}

static void add_caption(struct leaf *l, struct slab *s, const struct rich *r,
                        double x, double width) {
    const struct composer *c = &l->composer;
    if (rich_empty(r))
        return;
    const struct lines *lines =
        paragraph_break(c, words_of(c, r), width, l->style.note, 1);
    size_t outer = tag_open(c->tags, TAG_CAPTION, (struct text){NULL, 0});
    s->height += 4 + paragraph_draw_all(c, s, lines, x, s->height + 4);
    tag_close(c->tags, outer);
}

static void add_slab(struct leaf *l, const struct node *n, struct slab *s) {
    flow_space(&l->flow, 8);
    revise_add_slab(l, n, s);
    flow_space(&l->flow, 10);
}

/* The words of a rich text, for who cannot see the image. */
static struct text words_in(struct leaf *l, const struct rich *r) {
    struct buf b = buf_in(l->composer.arena);
    for (size_t i = 0; i < r->count; i++)
        buf_text(&b, r->chunk[i].text);
    return text_squeezed(l->composer.arena, text_trim(buf_as_text(&b)));
}

/* One figure, for the spot's variants, which are some of `all`. */
static void set_figure(struct leaf *l, const struct block *b,
                       const struct plate *p, const struct spot *spot,
                       variant_set all) {
    struct arena *a = l->composer.arena;
    struct spot words = *spot;
    struct rich caption = {0}, title = {0};
    const struct entry *e = tree_setting(b, "title");
    words.type = l->style.note;
    words.boxes = NULL;
    if (b->name.len > 0)
        leaf_add(l, &caption, words.type, FACE_BOLD,
                 arena_printf(a, "Figure %.*s%s", (int)b->name.len,
                              b->name.start,
                              spot->variants == all ? " " : ", "));
    if (spot->variants != all)
        leaf_add(
            l, &caption, words.type, FACE_BOLD,
            arena_printf(a, "%s only: ",
                         values_variant_names(l->values, a, spot->variants)));
    if (e != NULL)
        prose_add_choices(l, &title, e->choices, e->choice_count, &words);
    for (size_t i = 0; i < title.count; i++)
        *rich_add(a, &caption, title.chunk[i].tone, title.chunk[i].text,
                  title.chunk[i].at) = title.chunk[i];
    struct slab *s = draw(l, p, words_in(l, &title), spot->x, b->at);
    struct callout_place place = {spot->x, p->width, p->height};
    const struct callout_key *key = callout_draw(l, b, s, place, &words);
    double beside = spot->width - p->width - gap;
    bool below = beside < key_least;
    if (!below)
        s->height = fmax(
            s->height,
            callout_draw_key(l, s, key, spot->x + p->width + gap, 0, beside));
    add_caption(l, s, &caption, spot->x, spot->width);
    if (below && callout_count(key) > 0)
        s->height += 6 + callout_draw_key(l, s, key, spot->x, s->height + 6,
                                          spot->width);
    if (b->node != NULL)
        s->anchor = refer_node(l, b->node);
    add_slab(l, b->node, s);
}

static const struct value *value_in(const struct leaf *l, const struct block *b,
                                    const char *setting, size_t variant) {
    const struct named *n = values_of(l->values, b, setting);
    return n == NULL ? NULL : &n->by_variant[variant];
}

/* In points; 0 where the author leaves it to us. */
static double wanted_width(const struct leaf *l, const struct block *b,
                           size_t variant) {
    const struct value *v = value_in(l, b, "width", variant);
    return v == NULL || v->type != VALUE_QUANTITY
               ? 0
               : v->quantity->nominal * 1000 * millimetre;
}

/* As this variant has it; the variants of the spot that have it so too. */
static variant_set alike(const struct leaf *l, const struct block *b,
                         variant_set s, size_t variant) {
    const struct value *image = value_in(l, b, "image", variant);
    double width = wanted_width(l, b, variant);
    variant_set same = 0;
    for (size_t i = 0; i < 64; i++) {
        if ((s >> i & 1) == 0)
            continue;
        const struct value *other = value_in(l, b, "image", i);
        if (image != NULL && other != NULL &&
            text_equal(image->text, other->text) &&
            wanted_width(l, b, i) == width)
            same |= (variant_set)1 << i;
    }
    return same;
}

static void set_alike(struct leaf *l, const struct block *b, struct spot spot,
                      size_t variant, variant_set all) {
    struct text path = value_in(l, b, "image", variant)->text;
    const struct image *im = gallery_find(l->guide, path);
    const struct entry *e = tree_setting(b, "width");
    double wanted = wanted_width(l, b, variant);
    spot.width = leaf_width(l) - spot.x;
    /* Outside the steps a figure may use the whole page, as a table may. */
    if (wanted > spot.width && tree_step(b->node) == NULL) {
        spot.x = 0;
        spot.width = leaf_width(l);
    }
    if (im == NULL)
        return;
    double width = e == NULL ? usual_width(im, spot.width)
                             : checked_width(l, im, wanted, spot.width, e->at);
    if (width == 0)
        return;
    if (e != NULL)
        warn_coarse(l, im, width, e->at);
    const struct plate *p = plate_of(l, im, width, path, b->at);
    if (p->picture != NULL)
        set_figure(l, b, p, &spot, all);
}

void plate_set_block(struct leaf *l, const struct block *b,
                     const struct spot *spot) {
    variant_set left = spot->variants & l->applies;
    for (size_t i = 0; i < 64; i++) {
        if ((left >> i & 1) == 0)
            continue;
        struct spot one = *spot;
        one.variants = alike(l, b, left, i);
        left &= ~one.variants;
        if (one.variants != 0)
            set_alike(l, b, one, i, spot->variants & l->applies);
    }
}

void plate_set_image(struct leaf *l, const struct node *n,
                     const struct inlines *image, const struct spot *spot,
                     const struct spot *inner) {
    const struct image *im = gallery_find(l->guide, image->url);
    double room = leaf_width(l) - spot->x;
    if (im == NULL)
        return;
    const struct plate *p =
        plate_of(l, im, usual_width(im, room), image->url, image->at);
    if (p->picture == NULL)
        return;
    struct rich caption = {0};
    struct spot words = *inner, lead = *spot;
    words.type = lead.type = l->style.note;
    words.boxes = NULL;
    prose_add_lead(l, &caption, n, &lead, inner->variants);
    prose_add(l, &caption, image->first, &words);
    struct slab *s = draw(l, p, tree_plain(l->composer.arena, image->first),
                          spot->x, image->at);
    s->anchor = refer_node(l, n);
    add_caption(l, s, &caption, spot->x, room);
    add_slab(l, n, s);
}

struct slab *plate_logo(struct leaf *l) {
    const struct sheet *sheet = l->sheet;
    struct text path = sheet_setting(sheet, "logo");
    const struct image *im = sheet_logo(sheet);
    if (im == NULL)
        return NULL;
    struct span at = l->guide->root->at;
    double width = sheet->logo_height * image_width(im) / image_height(im);
    const struct plate *p =
        plate_of(l, im, fmin(width, leaf_width(l) / 2), path, at);
    if (p->picture == NULL)
        return NULL;
    struct slab *s = slab_new(&l->composer, p->height, at);
    struct op *op = slab_op(&l->composer, s, OP_IMAGE);
    op->width = p->width;
    op->height = p->height;
    op->picture = p->picture;
    op->text = text_of("logo");
    return s;
}

/* bolts.c - figures of the order in which the fasteners of a joint are
 * tightened: places on a circle or in a row, each with its turn. */
#include "layout/bolts.h"

#include "base/arena.h"
#include "calc/pattern.h"
#include "layout/revise.h"
#include "layout/shape.h"
#include "source/namesake.h"
#include "values/quantity.h"
#include "values/torque_order.h"

#include <math.h>

static const double pi = 3.14159265358979323846;

struct joint {
    const struct block *block;
    enum pattern pattern;
    int count;
    variant_set variants;
    struct text words; /* of the setting */
};

static bool read_joint(const struct leaf *l, const struct block *b,
                       size_t variant, struct joint *j) {
    const struct named *count = values_of(l->values, b, "count");
    const struct named *pattern = values_of(l->values, b, "pattern");
    if (count == NULL || pattern == NULL)
        return false;
    const struct value *n = &count->by_variant[variant];
    const struct value *p = &pattern->by_variant[variant];
    int order[PATTERN_MOST];
    *j = (struct joint){.block = b, .words = p->text};
    if (n->type != VALUE_QUANTITY || p->type != VALUE_TEXT ||
        !torque_order_find(p->text, &j->pattern) ||
        n->quantity->nominal > PATTERN_MOST)
        return false;
    j->count = (int)n->quantity->nominal;
    return pattern_order(j->pattern, j->count, order);
}

/* Room for a ring around a bold number of two digits. */
static double ring_of(const struct leaf *l) {
    return l->style.table.size * 0.9;
}

static void draw_place(struct leaf *l, struct slab *s, double x, double y,
                       int turn) {
    const struct composer *c = &l->composer;
    double ring = ring_of(l), size = l->style.table.size;
    struct text number = text_of(arena_printf(c->arena, "%d", turn));
    slab_disc(c, s, x, y, ring, 0, style_white());
    slab_disc(c, s, x, y, ring - 0.6, 1.2, style_black());
    slab_text(c, s, x - shape_width(c->shaper, FACE_BOLD, size, number) / 2,
              y + size * shape_cap_height(FACE_BOLD) / 2, FACE_BOLD, size,
              style_black(), number);
}

/* Where place 1 to `count` stands in the box of the figure. */
struct outline_of_joint {
    double width, height, radius; /* radius 0: a row */
};

static struct outline_of_joint outline(const struct leaf *l,
                                       const struct joint *j) {
    double ring = ring_of(l), pitch = 2 * ring + 4;
    if (j->pattern == PATTERN_SPIRAL)
        return (struct outline_of_joint){pitch * j->count, pitch, 0};
    double radius = fmax(pitch / (2 * sin(pi / j->count)), 1.6 * pitch);
    double side = 2 * (radius + ring);
    return (struct outline_of_joint){side, side, radius};
}

static void draw_joint(struct leaf *l, struct slab *s, const struct joint *j,
                       struct outline_of_joint o, double left) {
    const struct composer *c = &l->composer;
    int order[PATTERN_MOST];
    double ring = ring_of(l), pitch = 2 * ring + 4;
    double x = left + o.width / 2, y = o.height / 2;
    pattern_order(j->pattern, j->count, order);
    if (o.radius > 0)
        slab_disc(c, s, x, y, o.radius, 0.6, style_grey());
    else
        slab_rule(c, s, left + pitch / 2, y, left + o.width - pitch / 2, y,
                  0.6);
    for (int turn = 1; turn <= j->count; turn++) {
        int place = order[turn - 1];
        double angle = 2 * pi * (place - 1) / j->count;
        if (o.radius > 0)
            draw_place(l, s, x + o.radius * sin(angle),
                       y - o.radius * cos(angle), turn);
        else
            draw_place(l, s, left + pitch * (place - 0.5), y, turn);
    }
}

/* "nuts, mark 3 only: tighten 1 to 6 ..." */
static void add_words(struct leaf *l, struct rich *r, const struct joint *j) {
    struct arena *a = l->composer.arena;
    struct type type = l->style.note;
    leaf_add(l, r, type, FACE_BOLD, namesake_name(a, l->guide, j->block));
    if (j->variants != l->applies)
        leaf_add(l, r, type, FACE_BOLD,
                 arena_printf(a, ", %s only",
                              values_variant_names(l->values, a, j->variants)));
    leaf_add(
        l, r, type, FACE_REGULAR,
        arena_printf(a,
                     ": %.*s. Tighten 1 to %d in the order of the numbers, "
                     "in each round. ",
                     (int)j->words.len, j->words.start, j->count));
    leaf_add(l, r, type, FACE_REGULAR,
             j->pattern == PATTERN_STAR
                 ? "Seen from the wrench; any place may be number 1."
                 : "From the middle outwards, sides by turns.");
}

static void set_joint(struct leaf *l, const struct joint *j) {
    const struct composer *c = &l->composer;
    const double gap = 18;
    struct outline_of_joint o = outline(l, j);
    struct rich words = {0};
    add_words(l, &words, j);
    double x = l->style.rail, beside = leaf_body(l) - o.width - gap;
    bool below = beside < 140;
    double left = below ? x : x + o.width + gap;
    const struct lines *lines =
        paragraph_break(c, words_of(c, &words),
                        below ? leaf_body(l) : fmin(beside, l->style.measure),
                        l->style.note, 1);
    double text = paragraph_height(lines);
    double top = below ? o.height + 4 : fmax(0, (o.height - text) / 2);
    struct slab *s = slab_new(c, fmax(o.height, top + text), j->block->at);
    size_t outer =
        tag_open(c->tags, TAG_FIGURE,
                 text_of(arena_printf(
                     c->arena, "The order of tightening, 1 to %d, %s", j->count,
                     o.radius > 0 ? "in a circle" : "in a row")));
    draw_joint(l, s, j, o, x);
    tag_close(c->tags, outer);
    paragraph_draw_all(c, s, lines, left, top);
    flow_space(&l->flow, 8);
    flow_bond(&l->flow, BOND_WEAK);
    revise_add_slab(l, j->block->node, s);
    flow_space(&l->flow, 8);
}

static bool alike(const struct joint *a, const struct joint *b) {
    return a->count == b->count && a->pattern == b->pattern &&
           text_equal(a->words, b->words);
}

static void set_block(struct leaf *l, const struct block *b) {
    variant_set left = l->applies;
    for (size_t i = 0; i < 64; i++) {
        struct joint j, other;
        if ((left >> i & 1) == 0 || !read_joint(l, b, i, &j))
            continue;
        for (size_t k = i; k < 64; k++)
            if ((left >> k & 1) != 0 && read_joint(l, b, k, &other) &&
                alike(&j, &other))
                j.variants |= (variant_set)1 << k;
        left &= ~j.variants;
        set_joint(l, &j);
    }
}

void bolts_set(struct leaf *l) {
    for (const struct block *b = leaf_next(l, NULL, KIND_TORQUE); b != NULL;
         b = leaf_next(l, b, KIND_TORQUE))
        if (b->name.len > 0)
            set_block(l, b);
}

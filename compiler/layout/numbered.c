/* numbered.c - numbered steps.
 *
 * Inside a step stand, in this order: panels, the command, information and
 * tables, boxes for readings, substeps, boxes for the readings behind them,
 * initials and a second person. */
#include "layout/numbered.h"

#include "base/arena.h"
#include "layout/part.h"
#include "layout/record.h"
#include "layout/refer.h"
#include "layout/revise.h"
#include "layout/shape.h"
#include "layout/warn.h"

#include <string.h>

/* From the right: text, tick box, number. */
static const double tick_gap = 25, number_gap = 33, substep_indent = 40;
static const double initials_width = 76, initials_height = 25;

static void draw_number(struct leaf *l, struct slab *s, const struct node *n,
                        const struct spot *spot, bool tick) {
    const struct composer *c = &l->composer;
    size_t from = s->op_count;
    size_t outer = tag_open_label(c->tags);
    if (n->number != NULL) {
        struct text number = text_of(n->number);
        double wide =
            shape_width(c->shaper, FACE_BOLD, spot->type.size, number);
        slab_text(c, s, spot->x - number_gap - wide,
                  paragraph_baseline(spot->type), FACE_BOLD, spot->type.size,
                  style_black(), number);
    }
    if (tick)
        record_tick(c, s, spot->x - tick_gap, 0, spot->type);
    tag_close(c->tags, outer);
    slab_to_front(c, s, from);
}

/* The number stays, so that "step 14" is the same step in every vehicle. */
static void set_skipped(struct leaf *l, const struct node *n,
                        const struct spot *spot) {
    struct rich r = {0};
    leaf_add(l, &r, spot->type, FACE_OBLIQUE, "Not for this vehicle.");
    struct slab *s =
        flow_paragraph(&l->flow, &r, spot->x, spot->width, spot->type, n->at);
    draw_number(l, s, n, spot, false);
    s->anchor = refer_node(l, n);
}

static bool is_panel(const struct node *n) {
    if (n->kind != NODE_BLOCK)
        return false;
    enum kind_id id = n->block->kind->id;
    return id == KIND_DANGER || id == KIND_WARNING || id == KIND_CAUTION ||
           id == KIND_NOTICE;
}

static void draw_initials(struct leaf *l, struct slab *s) {
    static const struct field_box box[] = {{"initials", 1, {NULL, 0}}};
    double scale = l->style.scale, width = initials_width * scale;
    record_boxes(&l->composer, s, box, 1, leaf_width(l) - width, 0, width,
                 initials_height * scale);
}

/* The command: the first paragraph, with the number; initials beside it. */
static void set_command(struct leaf *l, const struct node *step,
                        const struct node *command, const struct spot *spot,
                        struct spot *inner) {
    struct rich r = {0};
    prose_add_lead(l, &r, step, spot, inner->variants);
    if (command != NULL) {
        struct spot deeper = *inner;
        deeper.variants = prose_variants(l, command, inner->variants);
        if (command != step)
            prose_add_lead(l, &r, command, inner, deeper.variants);
        prose_add(l, &r, command->text, &deeper);
    }
    if (rich_empty(&r))
        leaf_add(l, &r, spot->type, FACE_REGULAR, "–");
    bool initial = inner->boxes->initial;
    double scale = l->style.scale;
    double room = initial ? initials_width * scale + 10 : 0;
    size_t from = l->flow.count;
    struct slab *s = flow_paragraph(&l->flow, &r, spot->x, spot->width - room,
                                    spot->type, step->at);
    draw_number(l, s, step, spot, true);
    s->anchor = refer_node(l, step);
    if (!initial)
        return;
    draw_initials(l, s);
    inner->boxes->initial = false;
    double lacks = initials_height * scale - flow_height(&l->flow, from);
    if (lacks > 0)
        l->flow.slab[l->flow.count - 1]->height += lacks;
}

/* Rows of one id that measure the same in words: "drop (petrol only): ". */
struct measured {
    const struct cell *what;
    variant_set in;
};

static struct measured measured_in(struct leaf *l, struct text id,
                                   size_t variant) {
    variant_set one = (variant_set)1 << variant;
    const struct block *b;
    const struct entry *row = refer_reading(l, id, one, &b);
    return row == NULL
               ? (struct measured){NULL, 0}
               : (struct measured){tree_cell(b, row, "characteristic"), one};
}

static bool measures_same(const struct measured *a, const struct measured *b) {
    return a->what == b->what || (a->what != NULL && b->what != NULL &&
                                  text_equal(a->what->text, b->what->text));
}

/* All that the readers measure under an id, in the order of the variants. */
static size_t measured_by(struct leaf *l, struct text id, variant_set readers,
                          struct measured list[64]) {
    const struct variant *variants;
    size_t count = values_variants(l->values, &variants), found = 0;
    for (size_t i = 0; i < count; i++) {
        struct measured one = {NULL, 0};
        if ((readers >> i & 1) != 0)
            one = measured_in(l, id, i);
        if (one.in == 0)
            continue;
        size_t at = 0;
        while (at < found && !measures_same(&list[at], &one))
            at++;
        if (at == found)
            list[found++] = one;
        else
            list[at].in |= one.in;
    }
    return found;
}

static void reading_text(struct leaf *l, const struct mark *m, struct rich *r,
                         const struct spot *spot) {
    struct type type = l->style.table;
    struct text id = text_trim(m->text);
    variant_set readers = spot->variants & l->applies;
    const struct block *b;
    const struct entry *row = refer_reading(l, id, readers, &b);
    struct measured list[64];
    size_t count = measured_by(l, id, readers, list);
    bool named = !refer_is_owners(l, m->node);
    if (named)
        rich_add(l->composer.arena, r, leaf_tone(type, FACE_BOLD), id, m->at)
            ->to = row == NULL ? NULL : refer_row(l, b, row);
    if (count == 0)
        leaf_add(l, r, type, FACE_REGULAR, "  not for this vehicle");
    for (size_t i = 0; i < count; i++) {
        struct spot cell = *spot;
        cell.type = type;
        cell.boxes = NULL;
        cell.variants = list[i].in;
        if (named || i > 0)
            leaf_add(l, r, type, FACE_REGULAR, i == 0 ? "  " : "; ");
        if (list[i].what != NULL)
            prose_add_cell(l, r, list[i].what, &cell);
        leaf_add_readers(l, r, type, list[i].in, readers);
        leaf_add(l, r, type, FACE_REGULAR, ": ");
        leaf_add_value(
            l, r, type, FACE_BOLD,
            values_print_limit(l->values, l->composer.arena, id, list[i].in));
    }
}

static bool holds_reading(const struct inlines *i, struct text id) {
    for (; i != NULL; i = i->next)
        if ((i->kind == INLINE_MARK && i->mark->kind == MARK_READING &&
             text_equal(text_trim(i->mark->text), id)) ||
            holds_reading(i->first, id))
            return true;
    return false;
}

static bool is_as_found(struct leaf *l, const struct node *n) {
    const struct node *section = tree_section(n);
    return section != NULL &&
           part_by_title(tree_plain(l->composer.arena, section->text)) ==
               PART_AS_FOUND;
}

/* As found in that section; as left elsewhere, once it was taken there. */
static enum record_when when_of(struct leaf *l, const struct node *step,
                                const struct mark *reading) {
    const struct guide *g = l->guide;
    if (is_as_found(l, step))
        return RECORD_FOUND;
    for (size_t i = 0; i < g->node_count; i++)
        if (g->nodes[i]->text != NULL &&
            holds_reading(g->nodes[i]->text, text_trim(reading->text)) &&
            is_as_found(l, g->nodes[i]))
            return RECORD_LEFT;
    return RECORD_ONCE;
}

static void set_boxes(struct leaf *l, const struct boxes *boxes,
                      const struct spot *spot, const struct node *step) {
    double width = leaf_width(l) - spot->x;
    for (size_t i = 0; i < boxes->count; i++) {
        struct rich r = {0};
        reading_text(l, boxes->reading[i], &r, spot);
        flow_space(&l->flow, i == 0 ? 4 : 0);
        flow_bond(&l->flow, BOND_FAST);
        record_reading(&l->flow, &r, when_of(l, step, boxes->reading[i]),
                       spot->x, width, step->at);
    }
    if (boxes->initial) {
        flow_space(&l->flow, 5);
        flow_bond(&l->flow, BOND_FAST);
        draw_initials(
            l, flow_slab(&l->flow, initials_height * l->style.scale, step->at));
    }
}

static const struct mark *hold_of(const struct node *n) {
    for (size_t i = 0; i < n->mark_count; i++)
        if (n->marks[i]->kind == MARK_HOLD)
            return n->marks[i];
    return NULL;
}

/* Boxes of what the command reads: substeps come after it was measured. */
static void set_early_boxes(struct leaf *l, const struct node *step,
                            const struct spot *inner) {
    struct boxes early = *inner->boxes;
    early.initial = false;
    set_boxes(l, &early, inner, step);
    inner->boxes->count = 0;
}

/* What stands behind the command, panels apart. */
static void set_rest(struct leaf *l, const struct node *step,
                     const struct node *command, struct spot *inner) {
    for (const struct node *n = step->first; n != NULL; n = n->next) {
        if (n == command || is_panel(n))
            continue;
        struct node alone = *n; /* one node without those behind it */
        alone.next = NULL;
        if (n->kind == NODE_STEPS)
            set_early_boxes(l, step, inner);
        flow_bond(&l->flow, BOND_FIRM);
        flow_space(&l->flow, 3);
        prose_nodes(l, &alone, inner);
    }
}

static bool has_figure(const struct node *step) {
    for (const struct node *n = step->first; n != NULL; n = n->next)
        if (n->kind == NODE_BLOCK && n->block->kind->id == KIND_FIGURE)
            return true;
    return false;
}

static void set_step(struct leaf *l, const struct node *step,
                     const struct spot *spot) {
    struct boxes boxes = {0};
    struct spot inner = *spot;
    inner.variants = prose_variants(l, step, spot->variants);
    inner.boxes = &boxes;
    flow_space(&l->flow, 5);
    if (inner.variants == 0) {
        set_skipped(l, step, spot);
        return;
    }
    const struct node *command = step->first;
    while (command != NULL && command->kind != NODE_PARAGRAPH)
        command = command->next;
    struct tagger *tags = l->composer.tags;
    size_t from = l->flow.count;
    revise_begin(l, step);
    if (warn_set_before(l, step, &inner) > 0) {
        flow_bond(&l->flow, BOND_FAST);
        flow_space(&l->flow, 5);
    }
    size_t item = tag_open(tags, TAG_BODY, (struct text){NULL, 0});
    set_command(l, step, command, spot, &inner);
    revise_end(l);
    flow_together(&l->flow, from, BOND_FAST);
    set_rest(l, step, command, &inner);
    if (has_figure(step))
        flow_together(&l->flow, from, BOND_FAST);
    set_boxes(l, &boxes, &inner, step);
    const struct mark *hold = hold_of(step);
    if (hold != NULL) {
        flow_bond(&l->flow, BOND_FAST);
        record_hold(&l->flow, spot->x, leaf_width(l) - spot->x, hold->at);
    }
    tag_close(tags, item);
}

void numbered_set(struct leaf *l, const struct node *steps,
                  const struct spot *spot) {
    struct spot inner = *spot;
    bool sub = tree_step(steps) != NULL;
    inner.type = l->style.step;
    inner.value = FACE_BOLD;
    inner.boxes = NULL;
    inner.x = sub ? spot->x + substep_indent : l->style.rail;
    inner.width = leaf_width(l) - inner.x;
    struct tagger *tags = l->composer.tags;
    size_t outer = tag_open(tags, TAG_LIST, (struct text){NULL, 0});
    for (const struct node *n = steps->first; n != NULL; n = n->next) {
        if (n->kind != NODE_STEP)
            continue;
        size_t list = tag_open(tags, TAG_ITEM, (struct text){NULL, 0});
        set_step(l, n, &inner);
        tag_close(tags, list);
    }
    tag_close(tags, outer);
    flow_space(&l->flow, 8);
}

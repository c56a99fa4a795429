/* prepare.c - "Before you start": what the author lists, and what the guide
 * itself shows to be needed: guides done before, working time, trades, a second
 * person, torque wrenches, instruments, parts and bolts that are always
 * renewed.
 */
#include "layout/prepare.h"

#include "base/arena.h"
#include "layout/partlist.h"
#include "layout/prose.h"
#include "layout/refer.h"
#include "layout/revise.h"
#include "layout/shape.h"
#include "source/namesake.h"

struct list { /* one of the seven, while it is set */
    struct leaf *l;
    const char *label;
    struct rich text;
};

static double width_of(const struct list *list, const struct chunk *chunk,
                       size_t count) {
    double width = 0;
    for (const struct chunk *k = chunk; k < chunk + count; k++)
        width += shape_width(list->l->composer.shaper, k->tone.face,
                             k->tone.size, k->text);
    return width;
}

/* Items run on in lines, each behind a box to tick. One that would be parted
 * begins a line; half a tool at the end of a line is looked for as a whole one.
 * Longer than a line, it is parted where that saves one. */
static void set_item(struct list *list, const struct rich *r, struct span at) {
    struct leaf *l = list->l;
    struct arena *a = l->composer.arena;
    struct tone tone = leaf_tone(l->style.note, FACE_REGULAR);
    struct tone box = leaf_tone(l->style.note, FACE_SYMBOL);
    if (rich_empty(r))
        return;
    if (list->text.count > 0) /* an en space, then the blank that may break */
        rich_add(a, &list->text, tone, text_of("\xE2\x80\x82 "), at);
    rich_add(a, &list->text, box, text_of("☐"), at);
    rich_add(a, &list->text, tone, text_of("\xC2\xA0"), at);
    const struct chunk *last = list->text.chunk + list->text.count;
    double room = leaf_body(l) - width_of(list, last - 2, 2);
    bool solid = width_of(list, r->chunk, r->count) <= room;
    for (size_t i = 0; i < r->count; i++) {
        struct chunk *k = rich_add(a, &list->text, tone, r->chunk[i].text, at);
        *k = r->chunk[i];
        k->held = !solid;
        k->solid = solid;
    }
}

static void say(struct list *list, const char *text) {
    struct rich r = {0};
    leaf_add(list->l, &r, list->l->style.note, FACE_REGULAR, text);
    set_item(list, &r, list->l->guide->root->at);
}

/* Items of a setting of a block, one line each; `behind` follows each. */
static void add_setting(struct list *list, const struct block *b,
                        const char *setting, const char *behind) {
    struct leaf *l = list->l;
    for (size_t i = 0; b != NULL && i < b->entry_count; i++) {
        const struct entry *e = &b->entries[i];
        if (e->setting == NULL || !text_is(text_of(e->setting->name), setting))
            continue;
        for (size_t k = 0; k < e->choice_count; k++) {
            struct spot spot = prose_body(l, l->applies);
            spot.type = l->style.note;
            spot.variants &= values_tagged(l->values, &e->choices[k].tags);
            for (size_t j = 0; j < e->choices[k].item_count; j++) {
                const struct cell *item = &e->choices[k].items[j];
                struct rich r = {0};
                if (spot.variants == 0 || text_is(item->text, "none"))
                    continue;
                prose_add(l, &r, item->prose, &spot);
                leaf_add(l, &r, l->style.note, FACE_REGULAR, behind);
                set_item(list, &r, item->at);
            }
        }
    }
}

static void add_written(struct list *list, const char *setting) {
    for (const struct block *b = leaf_next(list->l, NULL, KIND_PRELIMINARY);
         b != NULL; b = leaf_next(list->l, b, KIND_PRELIMINARY))
        add_setting(list, b, setting, "");
}

static void add_personnel(struct list *list) {
    struct leaf *l = list->l;
    struct tone tone = leaf_tone(l->style.note, FACE_REGULAR);
    struct rich hold = {0};
    const struct block *b = l->guide->identity;
    const struct named *time =
        b == NULL ? NULL : values_of(l->values, b, "time");
    const char *hours = time == NULL
                            ? NULL
                            : values_print_over(l->values, l->composer.arena,
                                                time, l->applies, PRINT_PLAIN);
    for (size_t i = 0; i < l->guide->mark_count; i++) {
        const struct mark *m = l->guide->marks[i];
        const struct node *step = m->node == NULL ? NULL : tree_step(m->node);
        if (step == NULL || step->number == NULL)
            continue;
        if (m->kind == MARK_HOLD) {
            leaf_add(l, &hold, l->style.note, FACE_REGULAR,
                     hold.count == 0 ? "a second person to sign at " : ", ");
            refer_step(l, &hold, tone, step);
        } else if (m->kind == MARK_DEFER) {
            struct rich r = {0};
            rich_add(l->composer.arena, &r, tone, text_trim(m->text), m->at);
            leaf_add(l, &r, l->style.note, FACE_REGULAR, ", for ");
            refer_step(l, &r, tone, step);
            set_item(list, &r, m->at);
        }
    }
    set_item(list, &hold, l->guide->root->at);
    if (hours != NULL)
        say(list, arena_printf(l->composer.arena, "%s of work", hours));
}

static bool contains(struct text t, struct text word) {
    for (size_t at = 0; word.len > 0 && at + word.len <= t.len; at++)
        if (text_equal(text_part(t, at, at + word.len), word))
            return true;
    return false;
}

/* An item of the author's equipment names it already. */
static bool is_listed(const struct leaf *l, struct text name) {
    for (const struct block *b = leaf_next(l, NULL, KIND_PRELIMINARY);
         b != NULL; b = leaf_next(l, b, KIND_PRELIMINARY)) {
        const struct entry *e = tree_setting(b, "equipment");
        for (size_t k = 0; e != NULL && k < e->choice_count; k++)
            if (contains(e->choices[k].text, name))
                return true;
    }
    return false;
}

static struct text up_to_comma(struct text t) {
    size_t end = 0;
    while (end < t.len && t.start[end] != ',')
        end++;
    return text_trim(text_part(t, 0, end));
}

/* Texts already set in this list: sets of wrenches and meters repeat. */
struct seen {
    struct text text[32];
    size_t count;
};

static bool first_time(struct seen *seen, struct text t) {
    for (size_t i = 0; i < seen->count; i++)
        if (text_equal(seen->text[i], t))
            return false;
    if (seen->count < sizeof seen->text / sizeof seen->text[0])
        seen->text[seen->count++] = t;
    return true;
}

static void add_equipment(struct list *list) {
    struct leaf *l = list->l;
    struct arena *a = l->composer.arena;
    struct seen seen = {.count = 0};
    for (const struct block *b = leaf_next(l, NULL, KIND_TORQUE); b != NULL;
         b = leaf_next(l, b, KIND_TORQUE)) {
        const struct named *n = values_of(l->values, b, "wrench");
        const char *range =
            n == NULL
                ? NULL
                : values_print_over(l->values, a, n, l->applies, PRINT_PLAIN);
        /* Without the step of its scale. */
        if (range != NULL && first_time(&seen, up_to_comma(text_of(range))))
            say(list, arena_printf(a, "torque wrench, %s",
                                   text_cstr(a, up_to_comma(text_of(range)))));
    }
    for (const struct block *b = leaf_next(l, NULL, KIND_LIMITS); b != NULL;
         b = leaf_next(l, b, KIND_LIMITS))
        for (size_t i = 0; i < b->entry_count; i++) {
            const struct cell *cell =
                tree_cell(b, &b->entries[i], "instrument");
            struct rich r = {0};
            struct spot spot = prose_body(l, l->applies);
            spot.type = l->style.note;
            if (cell == NULL || is_listed(l, up_to_comma(cell->text)) ||
                !first_time(&seen, cell->text))
                continue;
            prose_add_cell(l, &r, cell, &spot);
            set_item(list, &r, cell->at);
        }
    for (const struct block *b = leaf_next(l, NULL, KIND_PRELIMINARY);
         b != NULL; b = leaf_next(l, b, KIND_PRELIMINARY)) {
        struct text stands = leaf_block_setting(l, b, "stands");
        if (stands.len > 0)
            say(list, arena_printf(a, "axle stands: %.*s", (int)stands.len,
                                   stands.start));
    }
}

/* The variants in which a joint takes new fasteners each time. */
static variant_set renews(const struct leaf *l, const struct block *b) {
    const struct named *n = values_of(l->values, b, "renew");
    const struct variant *variants;
    size_t count = values_variants(l->values, &variants);
    variant_set s = 0;
    for (size_t i = 0; n != NULL && i < count; i++)
        if (n->by_variant[i].type == VALUE_TRUTH && n->by_variant[i].truth)
            s |= (variant_set)1 << i;
    return s & l->applies;
}

/* "always new: ring 12-M6, fasteners of head (10)". */
static void add_renewed(struct list *list) {
    struct leaf *l = list->l;
    struct arena *a = l->composer.arena;
    struct buf b = buf_in(a);
    const char *parts = partlist_renewed(l);
    if (parts != NULL)
        buf_puts(&b, parts);
    for (const struct block *t = leaf_next(l, NULL, KIND_TORQUE); t != NULL;
         t = leaf_next(l, t, KIND_TORQUE)) {
        variant_set s = t->name.len == 0 ? 0 : renews(l, t);
        if (s == 0)
            continue;
        buf_puts(&b, b.len == 0 ? "always new: " : ", ");
        if (s != l->applies)
            buf_printf(&b, "%s: ", values_variant_names(l->values, a, s));
        buf_printf(&b, "fasteners of %s", namesake_name(a, l->guide, t));
        const struct named *n = values_of(l->values, t, "count");
        const char *count =
            n == NULL ? NULL
                      : values_print_over(l->values, a, n, s, PRINT_PLAIN);
        if (count != NULL)
            buf_printf(&b, " (%s)", count);
    }
    if (b.len > 0)
        say(list, buf_cstr(&b));
}

static void begin(struct list *list, const char *label) {
    list->label = label;
    list->text = (struct rich){0};
}

static void end(struct list *list) {
    struct leaf *l = list->l;
    if (list->text.count == 0)
        leaf_add(l, &list->text, l->style.note, FACE_REGULAR, "none");
    flow_space(&l->flow, 2);
    revise_begin(l, NULL);
    struct slab *s =
        flow_paragraph(&l->flow, &list->text, l->style.rail, leaf_body(l),
                       l->style.note, l->guide->root->at);
    revise_end(l);
    leaf_label(l, s, list->label, l->style.note);
}

void prepare_set(struct leaf *l) {
    struct list list = {.l = l};
    size_t from = l->flow.count;
    begin(&list, "Conditions");
    add_written(&list, "conditions");
    end(&list);
    begin(&list, "References");
    add_setting(&list, l->guide->identity, "after", ": done before this guide");
    add_setting(&list, l->guide->identity, "before", ": not yet done");
    add_written(&list, "references");
    end(&list);
    begin(&list, "Personnel");
    add_written(&list, "personnel");
    add_personnel(&list);
    end(&list);
    begin(&list, "Equipment");
    add_written(&list, "equipment");
    add_equipment(&list);
    end(&list);
    begin(&list, "Supplies");
    add_written(&list, "supplies");
    end(&list);
    begin(&list, "Spares");
    add_written(&list, "spares");
    add_renewed(&list);
    end(&list);
    begin(&list, "Safety");
    add_written(&list, "safety");
    end(&list);
    flow_together(&l->flow, from, BOND_FIRM);
    leaf_continued(l, from, PART_PRELIMINARY);
}

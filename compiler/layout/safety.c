/* safety.c - the safety summary. */
#include "layout/safety.h"

#include "base/arena.h"
#include "layout/columns.h"
#include "layout/prose.h"
#include "layout/refer.h"
#include "layout/shape.h"
#include "layout/warn.h"

#include <math.h>
#include <string.h>

/* Stands once in every guide. */
static const struct {
    const char *label, *text;
} standing[] = {
    {"Who:",
     "Only a person who is trained for this work and has read the whole "
     "guide."},
    {"Rules:", "Local codes and the figures of the vehicle's maker come before "
               "this guide."},
    {"Licence:", "Gas, line voltage, refrigerant, brakes, belts and airbags "
                 "may need one. Find out first."},
    {"Numbers:", "They hold only for the vehicles named above."},
    {"Law:", NULL}, /* the shop's */
};

/* The two schools of signal words differ; this guide says which it follows. */
static const struct {
    enum panel_signal signal;
    const char *meaning;
} meanings[] = {
    {PANEL_DANGER, "will kill or seriously injure you"},
    {PANEL_WARNING, "could kill or seriously injure you"},
    {PANEL_CAUTION, "could injure you lightly"},
    {PANEL_NOTICE, "damage only; nobody is hurt"},
};

/* "Assumed: United States. Ask ... which local rules hold." */
static const char *law(struct leaf *l) {
    struct text whose = {NULL, 0}, ask = {NULL, 0};
    for (size_t i = 0; i < l->guide->block_count; i++) {
        const struct block *b = l->guide->blocks[i];
        if (b->kind->id != KIND_SHOP)
            continue;
        whose = leaf_block_setting(l, b, "jurisdiction");
        ask = leaf_block_setting(l, b, "local rule");
    }
    if (whose.len == 0)
        whose = text_of("United States, federal rules");
    if (ask.len == 0)
        ask = text_of("the office that inspects vehicles, gas and wiring where "
                      "the vehicle is used");
    return arena_printf(l->composer.arena, "%.*s. Local rules: ask %.*s.",
                        (int)whose.len, whose.start, (int)ask.len, ask.start);
}

static void set_standing(struct leaf *l) {
    struct type type = l->style.note;
    struct columns words = {0};
    for (size_t i = 0; i < sizeof standing / sizeof standing[0]; i++) {
        struct rich *r = columns_add(l->composer.arena, &words);
        leaf_add(l, r, type, FACE_BOLD, standing[i].label);
        leaf_add(l, r, type, FACE_REGULAR, " ");
        leaf_add(l, r, type, FACE_REGULAR,
                 standing[i].text != NULL ? standing[i].text : law(l));
    }
    columns_set(&l->flow, &words, 0, leaf_width(l), type, l->guide->root->at);
}

/* A kind of hazard, from the catalogue or in the author's words. */
struct hazard {
    enum panel_signal signal;
    struct rich text;
    struct span at;
    const char **symbols;
    size_t symbol_count;
    size_t steps; /* named so far */
};

/* ", before step 3 (page 2), step 9 (page 3)" */
static void add_place(struct leaf *l, struct hazard *h, const struct node *at) {
    const struct node *step = at == NULL ? NULL : tree_step(at);
    if (step == NULL)
        return;
    leaf_add(l, &h->text, l->style.note, FACE_REGULAR,
             h->steps++ == 0 ? ", before " : ", ");
    refer_step(l, &h->text, leaf_tone(l->style.note, FACE_REGULAR), step);
}

static void set_hazard(struct leaf *l, const struct hazard *h) {
    const struct composer *c = &l->composer;
    const double sign = 18, tag_room = l->style.note.size * 6.8;
    double x = l->style.rail + tag_room;
    const struct lines *lines = paragraph_break(
        c, words_of(c, &h->text), leaf_width(l) - x, l->style.note, 1);
    double text = paragraph_height(lines), height = fmax(text, sign);
    double top = (height - text) / 2;
    struct slab *s = flow_slab(&l->flow, height, h->at);
    double signs = 0;
    for (size_t i = 0; i < h->symbol_count; i++) {
        const struct symbol *one = symbol_find(h->symbols[i]);
        if (one == NULL || signs + sign > l->style.rail)
            continue;
        symbol_draw(c, s, one, signs, (height - sign) / 2, sign);
        signs += sign + 3;
    }
    panel_tag(c, s, h->signal, l->style.rail, top, l->style.note);
    paragraph_draw_all(c, s, lines, x, top);
}

static bool seen_before(const struct leaf *l, size_t index) {
    for (size_t i = 0; i < index; i++)
        if (strcmp(l->findings->caution[i].row,
                   l->findings->caution[index].row) == 0)
            return true;
    return false;
}

static void set_from_rules(struct leaf *l, const struct caution *k) {
    struct hazard h = {.signal = warn_signal(k->signal),
                       .at = l->guide->root->at,
                       .symbols = k->symbols,
                       .symbol_count = k->symbol_count};
    leaf_add(l, &h.text, l->style.note, FACE_BOLD, k->title);
    for (size_t i = 0; i < l->findings->caution_count; i++) {
        const struct caution *one = &l->findings->caution[i];
        if (strcmp(one->row, k->row) == 0 && (one->variants & l->applies) != 0)
            add_place(l, &h, one->before);
    }
    set_hazard(l, &h);
}

/* The first sentence, without its full stop. */
static void cut_sentence(struct rich *r) {
    for (size_t i = 0; i < r->count; i++) {
        struct text *t = &r->chunk[i].text;
        for (size_t k = 0; k < t->len; k++) {
            struct text behind = text_part(*t, k + 1, t->len);
            if (t->start[k] != '.' ||
                (behind.len > 0 && !text_starts(behind, " ")))
                continue;
            t->len = k;
            r->count = i + 1;
            return;
        }
    }
}

/* The author's hazard in a few words. */
static struct rich hazard_of(struct leaf *l, const struct block *b) {
    struct spot spot = prose_body(l, l->applies);
    const struct entry *e = tree_setting(b, "hazard");
    struct rich r = {0};
    spot.type = l->style.note;
    spot.value = FACE_BOLD;
    if (e != NULL)
        prose_add_choices(l, &r, e->choices, e->choice_count, &spot);
    for (size_t i = 0; i < r.count; i++)
        r.chunk[i].tone.face = FACE_BOLD;
    cut_sentence(&r);
    return r;
}

static bool is_printed(struct leaf *l, const struct node *n) {
    variant_set variants = l->applies;
    for (; n != NULL && variants != 0; n = n->parent)
        variants = prose_variants(l, n, variants);
    return variants != 0;
}

static void set_from_author(struct leaf *l, const struct block *b,
                            enum panel_signal signal) {
    struct hazard h = {.signal = signal, .text = hazard_of(l, b), .at = b->at};
    add_place(l, &h, b->node);
    set_hazard(l, &h);
}

static void part_hazards(struct leaf *l, size_t *printed) {
    flow_space(&l->flow, (*printed)++ == 0 ? 5 : 1);
    flow_bond(&l->flow, BOND_FIRM);
}

/* A hazard is met in a step. */
static bool has_steps(const struct leaf *l) {
    for (size_t i = 0; i < l->guide->node_count; i++)
        if (l->guide->nodes[i]->kind == NODE_STEP)
            return true;
    return false;
}

static void set_hazards(struct leaf *l) {
    size_t printed = 0;
    for (enum panel_signal word = PANEL_DANGER; word <= PANEL_NOTICE; word++) {
        for (size_t i = 0; i < l->guide->block_count; i++) {
            const struct block *b = l->guide->blocks[i];
            enum panel_signal signal;
            if (b->node == NULL || !warn_is_panel(b, &signal) ||
                signal != word || !is_printed(l, b->node))
                continue;
            part_hazards(l, &printed);
            set_from_author(l, b, signal);
        }
        for (size_t i = 0; i < l->findings->caution_count; i++) {
            const struct caution *k = &l->findings->caution[i];
            if (warn_signal(k->signal) != word || seen_before(l, i))
                continue;
            part_hazards(l, &printed);
            set_from_rules(l, k);
        }
    }
    if (printed > 1) /* none of them goes over to the next page alone */
        l->flow.slab[l->flow.count - 1]->bond = BOND_CLOSE;
    if (printed > 0)
        return;
    flow_space(&l->flow, 6);
    struct slab *s =
        leaf_say(l, l->style.note,
                 text_of(has_steps(l) ? "No hazard of the catalogue was found "
                                        "in this job."
                                      : "No steps are written here, so no "
                                        "hazard was looked for in them."));
    leaf_label(l, s, "Hazards", l->style.note);
}

/* Width of the longest in one of two columns. */
static double widest_meaning(const struct leaf *l, size_t column) {
    const size_t count = sizeof meanings / sizeof meanings[0];
    double widest = 0;
    for (size_t i = column; i < count; i += 2)
        widest = fmax(widest, shape_width(l->composer.shaper, FACE_REGULAR,
                                          l->style.note.size,
                                          text_of(meanings[i].meaning)));
    return widest;
}

/* Two a line where there is room for the longest of each column: from the
 * middle of the page on, or from as far left of it as the second one needs. */
static void set_meanings(struct leaf *l) {
    const struct composer *c = &l->composer;
    struct type type = l->style.note;
    const size_t count = sizeof meanings / sizeof meanings[0];
    double tag_room = type.size * 6.8, half = leaf_width(l) / 2;
    double left = tag_room + widest_meaning(l, 0) + type.size;
    double right = tag_room + widest_meaning(l, 1);
    double second = fmin(half, leaf_width(l) - right);
    size_t columns = left <= second ? 2 : 1;
    double line = type.leading + 2;
    flow_space(&l->flow, 10);
    flow_bond(&l->flow, BOND_FAST); /* below its list it says what that means */
    struct slab *s = flow_slab(&l->flow, line * (double)(count / columns),
                               l->guide->root->at);
    for (size_t i = 0; i < count; i++) {
        double x = second * (double)(i % columns);
        double y = line * (double)(i / columns);
        panel_tag(c, s, meanings[i].signal, x, y, type);
        slab_text(c, s, x + tag_room, y + paragraph_baseline(type),
                  FACE_REGULAR, type.size, style_black(),
                  text_of(meanings[i].meaning));
    }
}

void safety_set(struct leaf *l) {
    size_t from = l->flow.count;
    if (l->flow.space == 0) /* no heading above it asked for some */
        flow_space(&l->flow, 8);
    set_standing(l);
    set_hazards(l);
    set_meanings(l);
    leaf_continued(l, from, PART_SAFETY);
}

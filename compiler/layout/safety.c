/* safety.c - the safety summary. */
#include "layout/safety.h"

#include "base/arena.h"
#include "layout/refer.h"
#include "layout/warn.h"

#include <math.h>
#include <string.h>

/* Stands once in every guide. */
static const struct {
    const char *label, *text;
} standing[] = {
    {"Who", "Only a person who is trained for this work and has read the whole "
            "guide before the first step."},
    {"Rules", "Local codes and the figures of the vehicle's maker win over "
              "this guide."},
    {"Licence", "Work on gas, line voltage, refrigerant, brakes and restraints "
                "(belts, airbags) may need a licence. Find out before you "
                "start."},
    {"Numbers", "They hold only for the vehicle that this guide applies to."},
};

static const struct {
    enum panel_signal signal;
    const char *meaning;
} meanings[] = {
    {PANEL_DANGER, "A hazard that will kill or seriously injure you."},
    {PANEL_WARNING, "A hazard that could kill or seriously injure you."},
    {PANEL_CAUTION, "A hazard that could injure you lightly."},
    {PANEL_NOTICE, "Something could be damaged; nobody is hurt."},
};

static void set_standing(struct leaf *l) {
    size_t from = l->flow.count;
    for (size_t i = 0; i < sizeof standing / sizeof standing[0]; i++) {
        flow_space(&l->flow, i == 0 ? 0 : 3);
        struct slab *s = leaf_say(l, l->style.prose, text_of(standing[i].text));
        leaf_label(l, s, standing[i].label, l->style.prose);
    }
    flow_together(&l->flow, from, BOND_FAST);
}

static bool seen_before(const struct leaf *l, size_t index) {
    for (size_t i = 0; i < index; i++)
        if (strcmp(l->findings->caution[i].row,
                   l->findings->caution[index].row) == 0)
            return true;
    return false;
}

/* ", before step 3 (page 2), step 9 (page 3)" */
static void add_places(struct leaf *l, struct rich *r, const char *row) {
    struct tone tone = leaf_tone(l->style.note, FACE_REGULAR);
    const char *before = ", before ";
    for (size_t i = 0; i < l->findings->caution_count; i++) {
        const struct caution *k = &l->findings->caution[i];
        const struct node *step = tree_step(k->before);
        if (strcmp(k->row, row) != 0 || (k->variants & l->applies) == 0 ||
            step == NULL)
            continue;
        leaf_add(l, r, l->style.note, FACE_REGULAR, before);
        refer_step(l, r, tone, step);
        before = ", ";
    }
}

static void set_hazard(struct leaf *l, const struct caution *k) {
    const struct composer *c = &l->composer;
    const double sign = 24, tag_room = 74;
    struct rich r = {0};
    leaf_add(l, &r, l->style.prose, FACE_BOLD, k->title);
    add_places(l, &r, k->row);
    double x = l->style.rail + tag_room;
    const struct lines *lines = paragraph_break(
        c, words_of(c, &r), leaf_width(l) - x, l->style.prose, 1);
    double text = paragraph_height(lines), height = fmax(text, sign);
    double top = (height - text) / 2;
    struct slab *s = flow_slab(&l->flow, height, l->guide->root->at);
    double signs = 0;
    for (size_t i = 0; i < k->symbol_count; i++) {
        const struct symbol *one = symbol_find(k->symbols[i]);
        if (one == NULL || signs + sign > l->style.rail)
            continue;
        symbol_draw(c, s, one, signs, 0, sign);
        signs += sign + 3;
    }
    panel_tag(c, s, warn_signal(k->signal), l->style.rail, top, l->style.prose);
    paragraph_draw_all(c, s, lines, x, top);
}

static void set_hazards(struct leaf *l) {
    struct type type = l->style.prose;
    size_t printed = 0;
    for (enum panel_signal word = PANEL_DANGER; word <= PANEL_NOTICE; word++)
        for (size_t i = 0; i < l->findings->caution_count; i++) {
            const struct caution *k = &l->findings->caution[i];
            if (warn_signal(k->signal) != word || seen_before(l, i))
                continue;
            flow_space(&l->flow, printed++ == 0 ? 12 : 7);
            flow_bond(&l->flow, BOND_WEAK);
            set_hazard(l, k);
        }
    if (printed > 0)
        return;
    flow_space(&l->flow, 12);
    struct slab *s = leaf_say(
        l, type, text_of("No hazard of the catalogue was found in this job."));
    leaf_label(l, s, "Hazards", type);
}

/* The two schools of signal words differ; this guide says which it follows. */
static void set_meanings(struct leaf *l) {
    const struct composer *c = &l->composer;
    struct type type = l->style.note;
    for (size_t i = 0; i < sizeof meanings / sizeof meanings[0]; i++) {
        flow_space(&l->flow, i == 0 ? 12 : 2);
        flow_bond(&l->flow, i == 0 ? BOND_NONE : BOND_FAST);
        struct slab *s =
            flow_slab(&l->flow, type.leading + 1, l->guide->root->at);
        if (i == 0)
            leaf_label(l, s, "Words", type);
        panel_tag(c, s, meanings[i].signal, l->style.rail, 0, type);
        slab_text(c, s, l->style.rail + 74, paragraph_baseline(type),
                  FACE_REGULAR, type.size, style_black(),
                  text_of(meanings[i].meaning));
    }
}

void safety_set(struct leaf *l) {
    set_standing(l);
    set_hazards(l);
    set_meanings(l);
}

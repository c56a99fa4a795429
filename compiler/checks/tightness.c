/* tightness.c - what the steps say of how tight a joint is. */
#include "checks/tightness.h"

#include "base/arena.h"
#include "base/diag.h"
#include "checks/deference.h"
#include "checks/waiver.h"
#include "source/kind.h"
#include "values/figure.h"
#include "values/quantity.h"
#include "values/range.h"

#include <math.h>
#include <string.h>

static bool is_name_byte(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
           (c >= '0' && c <= '9') || c == '.';
}

/* The name stands in the expression, and is not part of another. */
static bool has_name(struct text expression, struct text name) {
    for (size_t i = 0; i + name.len <= expression.len; i++) {
        size_t end = i + name.len;
        if (memcmp(expression.start + i, name.start, name.len) == 0 &&
            (i == 0 || !is_name_byte(expression.start[i - 1])) &&
            (end == expression.len || !is_name_byte(expression.start[end])))
            return true;
    }
    return false;
}

static bool lies_within(const struct node *n, const struct node *outer) {
    while (n != NULL && n != outer)
        n = n->parent;
    return n != NULL;
}

/* The first mark of the step that names a value; NULL. */
static const struct mark *
mark_of(const struct guide *g, const struct step_words *s, struct text name) {
    for (size_t i = 0; i < g->mark_count; i++) {
        const struct mark *m = g->marks[i];
        if (m->kind == MARK_VALUE && lies_within(m->node, s->step) &&
            has_name(m->text, name))
            return m;
    }
    return NULL;
}

static const struct mark *mark_of_field(struct arena *a, const struct guide *g,
                                        const struct step_words *s,
                                        const struct block *b,
                                        const char *field) {
    return mark_of(g, s,
                   text_of(arena_printf(a, "%.*s.%s", (int)b->name.len,
                                        b->name.start, field)));
}

bool tightness_said(struct compile *c, const struct guide *g,
                    const struct step_words *s, const struct block *b) {
    if (mark_of_field(c->arena, g, s, b, "torque") != NULL ||
        mark_of_field(c->arena, g, s, b, "setting") != NULL)
        return true;
    const struct entry *figure = tree_setting(b, "figure");
    for (size_t i = 0; figure != NULL && i < figure->choice_count; i++) {
        struct text name = text_trim(figure->choices[i].text);
        if (name.len > 0 && mark_of(g, s, name) != NULL)
            return true;
    }
    return false;
}

static const struct quantity *quantity_in(const struct values *v,
                                          const struct block *b,
                                          const char *name, size_t variant) {
    const struct named *n = values_of(v, b, name);
    return n != NULL && n->by_variant[variant].type == VALUE_QUANTITY
               ? n->by_variant[variant].quantity
               : NULL;
}

/* By more than a step of the wrench, in one of the variants; that one, or the
 * number of variants. */
static size_t differs_in(const struct values *v, const struct block *b,
                         variant_set in) {
    const struct variant *list;
    size_t count = values_variants(v, &list), i = 0;
    const struct named *wrench = values_of(v, b, "wrench");
    for (; i < count; i++) {
        const struct quantity *torque = quantity_in(v, b, "torque", i);
        const struct quantity *setting = quantity_in(v, b, "setting", i);
        if ((in >> i & 1) == 0 || torque == NULL || setting == NULL ||
            quantity_in(v, b, "extension", i) == NULL)
            continue;
        double step = wrench->by_variant[i].with->nominal;
        if (fabs(setting->nominal - torque->nominal) > step)
            break;
    }
    return i;
}

static void ask(struct compile *c, const struct guide *g,
                const struct values *v, const struct block *b, size_t variant,
                const struct mark *m) {
    const struct quantity *torque = quantity_in(v, b, "torque", variant);
    const struct quantity *setting = quantity_in(v, b, "setting", variant);
    diag_add(c->diags,
             deference_is_released(g) ? DIAG_FLAG_RELEASED : DIAG_FLAG_DRAFT,
             m->at,
             "with its extension the wrench is set to %s for these %s, and no "
             "step says so; write {%.*s.setting} in the step",
             figure_of(c->arena, setting, FIGURE_PLAIN),
             figure_of(c->arena, torque, FIGURE_PLAIN), (int)b->name.len,
             b->name.start);
    diag_note(c->diags, (struct span){0}, "rule wrench: AC 43.13-1B fig. 7-2");
}

static void check_joint(struct compile *c, const struct guide *g,
                        const struct values *v, const struct steps *steps,
                        const struct verdicts *judged, const struct block *b) {
    const struct mark *torque = NULL;
    const struct variant *list;
    size_t variant = values_variants(v, &list);
    for (size_t i = 0; i < steps->count; i++) {
        const struct step_words *s = &steps->step[i];
        if (mark_of_field(c->arena, g, s, b, "setting") != NULL)
            return;
        size_t in = differs_in(v, b, s->variants);
        const struct mark *m = torque != NULL || in >= values_variants(v, &list)
                                   ? NULL
                                   : mark_of_field(c->arena, g, s, b, "torque");
        if (m == NULL)
            continue;
        torque = m;
        variant = in;
    }
    if (torque != NULL && !waiver_covers(judged, "wrench", b))
        ask(c, g, v, b, variant, torque);
}

void tightness_check(struct compile *c, const struct guide *g,
                     const struct values *v, const struct steps *steps,
                     const struct verdicts *judged) {
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (b->kind->id == KIND_TORQUE && b->name.len > 0 &&
            values_of(v, b, "setting") != NULL)
            check_joint(c, g, v, steps, judged, b);
    }
}

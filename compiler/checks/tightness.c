/* tightness.c - what the steps say of how tight a joint is. */
#include "checks/tightness.h"

#include "base/arena.h"
#include "base/diag.h"
#include "checks/deference.h"
#include "checks/trigger.h"
#include "checks/waiver.h"
#include "source/kind.h"
#include "values/figure.h"
#include "values/quantity.h"
#include "values/range.h"

#include <math.h>
#include <stdlib.h>
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

/* The first mark of the step that names a value; NULL. */
static const struct mark *mark_of(const struct step_words *s,
                                  struct text name) {
    for (size_t i = 0; i < s->value_count; i++)
        if (has_name(s->value[i]->text, name))
            return s->value[i];
    return NULL;
}

/* "nuts.torque" */
static struct text name_of(struct arena *a, const struct block *b,
                           const char *field) {
    return text_of(
        arena_printf(a, "%.*s.%s", (int)b->name.len, b->name.start, field));
}

static const struct mark *mark_of_field(struct arena *a,
                                        const struct step_words *s,
                                        const struct block *b,
                                        const char *field) {
    return s->value_count == 0 ? NULL : mark_of(s, name_of(a, b, field));
}

/* Who reads a mark of the step that names a value. */
static variant_set readers_of(const struct values *v,
                              const struct step_words *s, struct text name) {
    variant_set in = 0;
    for (size_t i = 0; i < s->value_count; i++)
        if (has_name(s->value[i]->text, name))
            in |= values_readers(v, s->value[i]->node);
    return in & s->variants;
}

variant_set tightness_said(struct compile *c, const struct values *v,
                           const struct step_words *s, const struct block *b) {
    static const char *const fields[] = {"torque", "setting"};
    variant_set in = 0;
    if (s->value_count == 0)
        return 0;
    for (size_t i = 0; i < 2; i++)
        in |= readers_of(v, s, name_of(c->arena, b, fields[i]));
    const struct entry *figure = tree_setting(b, "figure");
    for (size_t i = 0; figure != NULL && i < figure->choice_count; i++) {
        struct text name = text_trim(figure->choices[i].text);
        if (name.len > 0)
            in |= readers_of(v, s, name);
    }
    return in;
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
    diag_add(c->diags, deference_flag(g), m->at,
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
        if (mark_of_field(c->arena, s, b, "setting") != NULL)
            return;
        size_t in = differs_in(v, b, s->variants);
        const struct mark *m = torque != NULL || in >= values_variants(v, &list)
                                   ? NULL
                                   : mark_of_field(c->arena, s, b, "torque");
        if (m == NULL)
            continue;
        torque = m;
        variant = in;
    }
    if (torque != NULL && !waiver_covers(judged, "wrench", b))
        ask(c, g, v, b, variant, torque);
}

/* Of a mark that is a number and a unit of torque; NAN: it is none. */
static double torque_in(struct arena *a, const struct mark *m) {
    char *rest;
    const char *text = text_cstr(a, text_trim(m->text));
    double number = strtod(text, &rest);
    struct text unit = text_trim(text_of(rest));
    const struct unit *u =
        rest == text ? NULL : unit_find(unit.start, unit.len);
    char name[UNIT_TEXT];
    return u != NULL && strcmp(unit_measures(u, name), "torque") == 0
               ? unit_to_si(u, number)
               : NAN;
}

/* The step is about the joint: by its name, or by a tag of its sort. */
static bool is_about(const struct values *v, const struct step_words *s,
                     const struct block *b) {
    bool about = false;
    for (size_t i = 0; i < s->named_count; i++)
        about = about || s->named[i] == b;
    for (size_t i = 0; i < s->mark_count; i++)
        for (size_t k = 0; k < s->mark[i]->list.count; k++)
            about = about || trigger_is_joint(v, b, s->mark[i]->list.tag[k]);
    return about;
}

/* The tightest joint that the step is about; NULL: none, or one without a
 * torque. */
static const struct block *tightest(const struct guide *g,
                                    const struct values *v,
                                    const struct step_words *s, double *most) {
    const struct block *found = NULL;
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (b->kind->id != KIND_TORQUE || b->name.len == 0 ||
            !is_about(v, s, b))
            continue;
        double torque = fmax(values_highest(v, b, "torque"),
                             values_highest(v, b, "setting"));
        if (isnan(torque))
            return NULL;
        if (found == NULL || torque > *most) {
            found = b;
            *most = torque;
        }
    }
    return found;
}

/* Stages lie below the torque: a figure above it is another one. */
static void check_step(struct compile *c, const struct guide *g,
                       const struct values *v, const struct step_words *s,
                       const struct verdicts *judged) {
    double most = 0;
    const struct block *b =
        s->value_count == 0 ? NULL : tightest(g, v, s, &most);
    for (size_t i = 0; b != NULL && i < s->value_count; i++) {
        const struct mark *m = s->value[i];
        if (!(torque_in(c->arena, m) > most * (1 + 1e-9)) ||
            waiver_covers(judged, "torque", b))
            continue;
        diag_add(c->diags, deference_flag(g), m->at,
                 "{%.*s} is more than the torque of %.*s; write "
                 "{%.*s.torque}, or a stage below it",
                 (int)m->text.len, m->text.start, (int)b->name.len,
                 b->name.start, (int)b->name.len, b->name.start);
        diag_note(c->diags, (struct span){0},
                  "rule torque: common practice, no source");
    }
}

void tightness_check(struct compile *c, const struct guide *g,
                     const struct values *v, const struct steps *steps,
                     const struct verdicts *judged) {
    for (size_t i = 0; i < steps->count; i++)
        check_step(c, g, v, &steps->step[i], judged);
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (b->kind->id == KIND_TORQUE && b->name.len > 0 &&
            values_of(v, b, "setting") != NULL)
            check_joint(c, g, v, steps, judged, b);
    }
}

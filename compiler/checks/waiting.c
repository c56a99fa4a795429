/* waiting.c - steps that only wait, measure or end what others began. */
#include "checks/waiting.h"

#include "base/diag.h"
#include "calc/unit.h"
#include "checks/deference.h"
#include "checks/waiver.h"
#include "source/kind.h"
#include "values/quantity.h"

#include <string.h>

struct inquiry {
    struct compile *c;
    const struct guide *guide;
    const struct values *values;
    const struct steps *steps;
    const struct verdicts *judged;
};

static void ask(const struct inquiry *q, const char *rule, struct span at,
                const char *what) {
    if (waiver_covers(q->judged, rule, NULL))
        return;
    diag_add(q->c->diags, deference_flag(q->guide), at, "%s", what);
    diag_note(q->c->diags, (struct span){0},
              "rule %s: common practice, no source", rule);
}

static bool is_inside(const struct node *n, const struct node *step) {
    while (n != NULL && n != step)
        n = n->parent;
    return n != NULL;
}

/* A box for a pen: a reading, initials or a second person's. */
static bool has_box(const struct inquiry *q, const struct node *step) {
    for (size_t i = 0; i < q->guide->mark_count; i++) {
        const struct mark *m = q->guide->marks[i];
        bool box = m->kind == MARK_INITIAL || m->kind == MARK_HOLD ||
                   m->kind == MARK_READING;
        if (box && is_inside(m->node, step))
            return true;
    }
    return false;
}

/* A named time that says where it comes from. */
static bool is_sourced_time(const struct inquiry *q, const struct mark *m) {
    const struct unit *s = unit_find("s", 1);
    const struct named *n = values_find(q->values, m->scope, m->text);
    const struct variant *list;
    size_t count = values_variants(q->values, &list);
    for (size_t k = 0; n != NULL && k < count; k++) {
        const struct value *value = &n->by_variant[k];
        if (value->type == VALUE_QUANTITY &&
            dim_same(value->quantity->dim, s->dim) &&
            value->quantity->note.len > 0)
            return true;
    }
    return false;
}

static bool says_sourced_time(const struct inquiry *q,
                              const struct node *step) {
    for (size_t i = 0; i < q->guide->mark_count; i++) {
        const struct mark *m = q->guide->marks[i];
        if (m->kind == MARK_VALUE && is_inside(m->node, step) &&
            is_sourced_time(q, m))
            return true;
    }
    return false;
}

/* The last step before `before` that does this; NULL: none. */
static const struct step_words *last_that(const struct inquiry *q,
                                          size_t before, const char *word) {
    const struct step_words *found = NULL;
    for (size_t i = 0; i < before; i++)
        if (walk_has_word(&q->steps->step[i], text_of(word)))
            found = &q->steps->step[i];
    return found;
}

static void check_airbag(const struct inquiry *q, const struct hazard *h) {
    for (size_t i = 0; h != NULL && i < q->steps->count; i++) {
        if (walk_mark(&q->steps->step[i], h->tags.item, h->tags.count) == NULL)
            continue;
        const struct step_words *wait = last_that(q, i, "wait");
        if (wait == NULL)
            return; /* the order of the steps tells it */
        if (!has_box(q, wait->step))
            ask(q, "airbag-time", wait->step->at,
                "nobody records the waiting time before the airbag; write "
                "{initial} or {reading} in its step");
        if (!says_sourced_time(q, wait->step))
            ask(q, "airbag-time", wait->step->at,
                "the waiting time before the airbag has no figure with a "
                "source; write it as a value: airbag.wait = 10 min \"the "
                "maker's manual\", and {airbag.wait} in the step");
        return;
    }
}

static void check_dead(const struct inquiry *q) {
    for (size_t i = 0; i < q->steps->count; i++) {
        const struct step_words *s = &q->steps->step[i];
        if (walk_has_word(s, text_of("prove dead")) && !has_box(q, s->step))
            ask(q, "dead-record", s->step->at,
                "nobody records that it is dead; write {reading} or {initial} "
                "in the step");
    }
}

static void check_reconnect(const struct inquiry *q) {
    const struct step_words *off = last_that(q, q->steps->count, "disconnect");
    const struct step_words *on = last_that(q, q->steps->count, "reconnect");
    if (off != NULL && (on == NULL || on < off))
        ask(q, "reconnect", off->step->at,
            "the battery is taken off and never fitted again; mark the step "
            "that does: {does reconnect}");
}

/* A person who is under without them is refused by the order of the steps. */
static void check_stands(const struct inquiry *q) {
    size_t count = q->steps->count;
    if (last_that(q, count, "stands") != NULL ||
        last_that(q, count, "under") != NULL)
        return;
    for (size_t i = 0; i < q->guide->block_count; i++) {
        const struct block *b = q->guide->blocks[i];
        const struct entry *e =
            b->kind->id == KIND_PRELIMINARY ? tree_setting(b, "stands") : NULL;
        if (e == NULL)
            continue;
        ask(q, "stands-set", e->at,
            "no step sets these stands; mark the step that does: {does "
            "stands}");
        return;
    }
}

static bool contains(struct text t, const char *words) {
    size_t len = strlen(words);
    for (size_t i = 0; i + len <= t.len; i++)
        if (strncmp(t.start + i, words, len) == 0)
            return true;
    return false;
}

static bool names_data_sheet(const struct guide *g) {
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        const struct entry *e = b->kind->id == KIND_PRELIMINARY
                                    ? tree_setting(b, "references")
                                    : NULL;
        for (size_t k = 0; e != NULL && k < e->choice_count; k++)
            if (contains(e->choices[k].text, "data sheet"))
                return true;
    }
    return false;
}

/* What is in a solvent or a two-part paint only its data sheet tells. */
static void check_data_sheet(const struct inquiry *q,
                             const struct catalogue *k) {
    static const char *const rows[] = {"H21", "H21c", "H22"};
    for (size_t r = 0; r < sizeof rows / sizeof rows[0]; r++) {
        const struct hazard *h = catalogue_find(k, rows[r]);
        for (size_t i = 0; h != NULL && i < q->steps->count; i++) {
            const struct step_words *s = &q->steps->step[i];
            if (walk_mark(s, h->tags.item, h->tags.count) == NULL ||
                names_data_sheet(q->guide))
                continue;
            ask(q, "data-sheet", s->step->at,
                "no safety data sheet is at hand for what is used here; name "
                "it under references: of the preliminary block");
            return;
        }
    }
}

void waiting_check(struct compile *c, const struct guide *g,
                   const struct values *v, const struct catalogue *k,
                   const struct steps *steps, const struct verdicts *judged) {
    struct inquiry q = {c, g, v, steps, judged};
    check_airbag(&q, catalogue_find(k, "H11"));
    check_dead(&q);
    check_reconnect(&q);
    check_stands(&q);
    check_data_sheet(&q, k);
}

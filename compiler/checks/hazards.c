/* hazards.c - which rows of the catalogue a guide calls for, and where.
 *
 * A row fires by a word of a step's marks, or by what a block computes. What is
 * not stated counts as fired. Each row stands once in a section, before the
 * first step concerned. Words that give a hazard away without firing its row
 * are a question to the author. */
#include "checks/hazards.h"

#include "base/arena.h"
#include "base/diag.h"
#include "base/list.h"
#include "checks/crowd.h"
#include "checks/deference.h"
#include "checks/question.h"
#include "checks/trigger.h"
#include "checks/waiver.h"
#include "source/kind.h"

#include <stdlib.h>
#include <string.h>

struct finder {
    struct compile *c;
    const struct guide *guide;
    const struct values *values;
    variant_set applies;
    const struct catalogue *catalogue;
    const struct verdicts *judged;
    const struct steps *steps;
    struct triggers triggers;
    variant_set *warned; /* of the row at hand: by the index of a section */
    struct caution *list;
    size_t count, room;
    struct deferral *deferral;
    size_t deferral_count, deferral_room;
};

/* What a does-mark may say: the words of the catalogue of hazards. */
static const char *const does_words[] = {
    "disconnect", "reconnect",  "ground off", "live off", "live on",
    "ground on",  "prove dead", "discharge",  "wait",     "chock",
    "stands",     "lower",      "air out",    "cool",     "depressurise",
    "recover",    "gas off"};

const char *hazards_deed(size_t index) {
    return index < sizeof does_words / sizeof does_words[0] ? does_words[index]
                                                            : NULL;
}

static bool is_does_word(struct text word) {
    for (size_t i = 0; i < sizeof does_words / sizeof does_words[0]; i++)
        if (text_is(word, does_words[i]))
            return true;
    return false;
}

static bool is_in(const struct items *list, struct text word,
                  struct nearest *near) {
    for (size_t i = 0; i < list->count; i++) {
        if (is_does_word(list->item[i]))
            continue;
        if (text_equal(list->item[i], word))
            return true;
        nearest_offer(near, list->item[i]);
    }
    return false;
}

static bool is_tag(const struct catalogue *k, struct text word,
                   struct nearest *near) {
    for (size_t i = 0; i < k->count; i++)
        if (is_in(&k->row[i].tags, word, near) ||
            is_in(&k->row[i].with, word, near))
            return true;
    for (size_t i = 0; i < k->order_count; i++)
        if (is_in(&k->order[i].step, word, near) ||
            is_in(&k->order[i].set, word, near))
            return true;
    return false;
}

static void check_word(struct finder *f, const struct mark *m,
                       struct text word) {
    struct nearest near = nearest_to(word);
    bool touches = m->kind == MARK_TOUCHES;
    if (touches ? text_is(word, "nothing") || is_tag(f->catalogue, word, &near)
                : is_does_word(word))
        return;
    for (size_t i = 0; !touches && i < sizeof does_words / sizeof does_words[0];
         i++)
        nearest_offer(&near, text_of(does_words[i]));
    struct span at = place_of(m->scope->src, word);
    if (near.best != NULL)
        diag_add(f->c->diags, DIAG_WORD_UNKNOWN, at,
                 "'%.*s' (did you mean '%.*s'?)", (int)word.len, word.start,
                 (int)near.best_len, near.best);
    else
        diag_add(f->c->diags, DIAG_WORD_UNKNOWN, at, "'%.*s'", (int)word.len,
                 word.start);
}

static void check_words(struct finder *f) {
    const struct guide *g = f->guide;
    for (size_t i = 0; i < g->mark_count; i++) {
        const struct mark *m = g->marks[i];
        if (m->kind != MARK_TOUCHES && m->kind != MARK_DOES)
            continue;
        for (size_t k = 0; k < m->list.count; k++)
            check_word(f, m, m->list.tag[k]);
    }
}

/* Puts figures for {fault.current} and the like into a row's wording. */
static const char *fill(struct finder *f, const char *text,
                        const struct trigger_text *with) {
    struct buf b = buf_in(f->c->arena);
    for (const char *s = text; *s != '\0';) {
        const char *open = strchr(s, '{');
        const char *close = open == NULL ? NULL : strchr(open, '}');
        if (close == NULL) {
            buf_puts(&b, s);
            break;
        }
        buf_add(&b, s, (size_t)(open - s));
        struct text name = {open + 1, (size_t)(close - open - 1)};
        buf_puts(&b, trigger_word(with, name));
        s = close + 1;
    }
    return buf_cstr(&b);
}

/* Index 0 is the guide itself: steps before the first section. */
static variant_set *warned_in(const struct finder *f,
                              const struct step_words *s) {
    return &f->warned[s->section == NULL ? 0 : s->section->index];
}

/* Once in a section, before the first step concerned; again where a variant
 * was not among those of the steps before. */
static void insert(struct finder *f, const struct hazard *h,
                   const struct step_words *s, variant_set in) {
    variant_set *warned = warned_in(f, s);
    if ((in & ~*warned) == 0)
        return;
    *warned |= in;
    f->list =
        list_grown(f->c->arena, f->list, f->count, &f->room, sizeof *f->list);
    const struct trigger_text *with = &f->triggers.text;
    f->list[f->count++] =
        (struct caution){.row = h->id,
                         .signal = h->signal,
                         .title = h->title,
                         .hazard = fill(f, h->hazard, with),
                         .consequence = fill(f, h->consequence, with),
                         .avoidance = fill(f, h->avoidance, with),
                         .symbols = h->symbols,
                         .symbol_count = h->symbol_count,
                         .defer = h->defer,
                         .before = s->step,
                         .variants = in};
}

/* The numbers of four digits in a cell of years: the first and the last. */
static bool years_of(struct text t, int *first, int *last) {
    bool any = false;
    for (size_t i = 0; i < t.len;) {
        size_t digits = 0;
        int year = 0;
        while (i + digits < t.len && t.start[i + digits] >= '0' &&
               t.start[i + digits] <= '9' && digits < 9)
            year = year * 10 + (t.start[i + digits++] - '0');
        if (digits == 4) {
            *first = any ? *first : year;
            *last = year;
            any = true;
        }
        i += digits > 0 ? digits : 1;
    }
    return any;
}

/* The variants of those model years, and those that state none. */
static variant_set in_years(const struct finder *f, const struct hazard *h) {
    const struct variant *list;
    size_t count = values_variants(f->values, &list);
    variant_set in = 0;
    for (size_t i = 0; i < count; i++) {
        int first = 0, last = 0;
        const struct cell *cell =
            list[i].row == NULL
                ? NULL
                : tree_cell(list[i].vehicle, list[i].row, "years");
        if (cell == NULL || !years_of(cell->text, &first, &last) ||
            (last >= h->first && first <= h->last))
            in |= (variant_set)1 << i;
    }
    return in;
}

/* A row fires at a step that has one of its words, whose torque block is a
 * joint by that name, or that names a block which makes the row fire. */
static variant_set marked(const struct finder *f, const struct hazard *h,
                          const struct step_words *s) {
    if (h->spares_lithium && !f->triggers.lead_acid)
        return 0;
    for (size_t i = 0; i < h->tags.count; i++)
        if (walk_has_word(s, h->tags.item[i]) ||
            trigger_has_joint(f->values, s, h->tags.item[i]))
            return s->variants;
    for (size_t i = 0; i < h->with.count; i++)
        if (walk_has_word(s, h->with.item[i]) ||
            trigger_has_joint(f->values, s, h->with.item[i]))
            return s->variants & in_years(f, h);
    return 0;
}

static variant_set concerned(const struct finder *f, const struct hazard *h,
                             const struct trigger *t,
                             const struct step_words *s) {
    if (t != NULL && trigger_meets(t, s))
        return s->variants;
    return marked(f, h, s);
}

/* What a row flags or refuses, where no override answers for it. */
static void report(struct finder *f, const struct hazard *h,
                   const char *unknown, struct span at) {
    enum diag_id id = h->action == ACTION_REFUSE ? DIAG_HAZARD_REFUSED
                                                 : deference_flag(f->guide);
    const char *cure = h->cure == NULL ? "plan the work another way" : h->cure;
    if (unknown != NULL)
        cure = arena_printf(f->c->arena,
                            "it may be, since it is not stated; write %s, from "
                            "its maker's sheet",
                            unknown);
    diag_add(f->c->diags, id, at,
             "%s: %s; %s, or write ```override %s with reason and approver",
             h->id, h->title, cure, h->id);
    diag_note(f->c->diags, (struct span){0}, "rule %s: %s", h->id,
              h->source == NULL ? "common practice" : h->source);
}

/* The block that makes a row fire: the first. */
static struct span fired_at(const struct finder *f, const struct trigger *t) {
    for (size_t i = 0; i < f->guide->block_count; i++)
        if (t->by[i])
            return f->guide->blocks[i]->at;
    return f->guide->root->at;
}

/* Says what a row flags or refuses, once. A row that the checks judge (H05) is
 * refused there. */
static void judge_row(struct finder *f, const struct hazard *h,
                      const struct trigger *t) {
    if (h->action == ACTION_INSERT || waiver_covers(f->judged, h->id, NULL))
        return;
    for (size_t i = 0; i < f->steps->count; i++) {
        const struct step_words *s = &f->steps->step[i];
        if (marked(f, h, s) == 0)
            continue;
        const struct mark *m = walk_mark(s, h->tags.item, h->tags.count);
        report(f, h, NULL, m != NULL ? m->at : s->step->at);
        return;
    }
    if (t != NULL && t->fires && h->action == ACTION_FLAG)
        report(f, h, t->unknown, fired_at(f, t));
}

static void defer(struct finder *f, const struct hazard *h,
                  const struct step_words *s) {
    if (h->defer == NULL && !h->shop_only)
        return;
    f->deferral = list_grown(f->c->arena, f->deferral, f->deferral_count,
                             &f->deferral_room, sizeof *f->deferral);
    f->deferral[f->deferral_count++] =
        (struct deferral){s->step, h->id, h->defer, h->shop_only};
}

static bool is_procedure(const struct step_words *s) {
    return s->section != NULL && s->section->text != NULL &&
           text_is(s->section->text->text, "Procedure");
}

/* What fires but stands before no step of a variant: before the first step of
 * its Procedure, or of all. */
static void insert_at_first(struct finder *f, const struct hazard *h) {
    variant_set left = f->applies;
    for (size_t i = 0; i < f->guide->node_count; i++)
        left &= ~f->warned[i];
    for (int any = 0; any < 2; any++)
        for (size_t i = 0; i < f->steps->count && left != 0; i++) {
            const struct step_words *s = &f->steps->step[i];
            if ((s->variants & left) == 0 || (any == 0 && !is_procedure(s)))
                continue;
            left &= ~s->variants;
            insert(f, h, s, s->variants);
        }
}

static void insert_row(struct finder *f, const struct hazard *h) {
    memset(f->warned, 0, f->guide->node_count * sizeof *f->warned);
    const struct trigger *t = trigger_of(&f->triggers, h->id);
    bool any = t != NULL && t->fires;
    for (size_t i = 0; i < f->steps->count; i++)
        any = any || concerned(f, h, t, &f->steps->step[i]) != 0;
    struct question q = {f->c, f->guide, f->steps, h, f->warned};
    if (any && h->action == ACTION_INSERT &&
        waiver_covers(f->judged, h->id, NULL))
        return;
    for (size_t i = 0; any && i < f->steps->count; i++) {
        const struct step_words *s = &f->steps->step[i];
        variant_set in = concerned(f, h, t, s);
        if (in == 0)
            continue;
        insert(f, h, s, in);
        defer(f, h, s);
    }
    if (t != NULL && t->fires)
        insert_at_first(f, h);
    judge_row(f, h, t);
    question_ask(&q, any);
}

static int by_step(const void *left, const void *right) {
    const struct caution *a = left, *b = right;
    if (a->before->index != b->before->index)
        return a->before->index < b->before->index ? -1 : 1;
    if (a->signal != b->signal)
        return a->signal < b->signal ? -1 : 1;
    return strcmp(a->row, b->row);
}

void hazards_find(struct compile *c, const struct guide *g,
                  const struct values *v, const struct catalogue *k,
                  const struct steps *steps, const struct verdicts *judged,
                  struct findings *out) {
    struct finder f = {.c = c,
                       .guide = g,
                       .applies = values_applies(v),
                       .catalogue = k,
                       .judged = judged,
                       .values = v,
                       .steps = steps};
    f.warned = arena_alloc(c->arena, g->node_count + 1, sizeof *f.warned);
    trigger_find(c, g, v, k, judged, &f.triggers);
    check_words(&f);
    for (size_t i = 0; i < k->count; i++)
        if (k->row[i].hazard != NULL) /* else the checks judge it */
            insert_row(&f, &k->row[i]);
    if (f.count > 1)
        qsort(f.list, f.count, sizeof *f.list, by_step);
    out->caution = f.list;
    out->caution_count = f.count;
    out->deferral = f.deferral;
    out->deferral_count = f.deferral_count;
    deference_check(c, g, k, out);
    crowd_check(c, g, v, out);
}

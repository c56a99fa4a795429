/* job_result.c - a guide for one job.
 *
 *   set = name "=" literal {"," "then" literal}
 *
 * A job sets what was measured or stated, never what is computed from it: the
 * figure of the facts or the guide is put aside, and the job's stands in its
 * place before anything is evaluated. */
#include "values/job_result.h"

#include "base/arena.h"
#include "base/diag.h"
#include "source/suggest.h"
#include "values/job_set.h"
#include "values/limit.h"
#include "values/misread.h"
#include "values/range.h"

#include <math.h>
#include <string.h>

static const char *word_of(const struct value *v) {
    switch (v->type) {
    case VALUE_QUANTITY:
        return "a quantity";
    case VALUE_SIZE:
        return "a wire size";
    case VALUE_TEXT:
        return "a word";
    case VALUE_TRUTH:
        return "yes or no";
    case VALUE_LIMIT:
        return "a limit";
    case VALUE_BAD:
    case VALUE_ABSENT:
        break;
    }
    return "nothing";
}

/* A sum of stages, each as it was measured. */
static bool is_measured(const struct quantity *q, bool staged) {
    return staged && q->op == QUANTITY_ADD
               ? is_measured(q->arg[0], true) && is_measured(q->arg[1], true)
               : q->op == QUANTITY_ROOT;
}

static bool is_literal(const struct value *v) {
    return v->type != VALUE_QUANTITY || is_measured(v->quantity, v->staged);
}

static void refuse(struct values *v, const struct job_set *s, const char *why) {
    diag_add(v->c->diags, DIAG_JOB_SET, s->at, "'%.*s' %s", (int)s->name.len,
             s->name.start, why);
}

/* What it set is what can be set there. */
static bool fits(struct values *v, const struct job_set *s, size_t variant) {
    const struct value *now = evaluate_slot(v, &v->slot[s->slot], variant);
    const struct value *was =
        s->was == SIZE_MAX ? NULL : evaluate_slot(v, &v->slot[s->was], variant);
    if (now->type == VALUE_BAD || (was != NULL && was->type == VALUE_BAD))
        return false;
    if (was != NULL && !is_literal(was))
        refuse(v, s, "is computed: set what it is computed from");
    else if (!is_literal(now))
        refuse(v, s, "takes a figure as it was measured, no expression");
    else if (was != NULL && was->type != VALUE_ABSENT && was->type != now->type)
        refuse(v, s,
               arena_printf(v->c->arena, "is %s in the guide, not %s",
                            word_of(was), word_of(now)));
    else if (was != NULL && was->type == VALUE_QUANTITY &&
             !dim_equal(was->quantity->dim, now->quantity->dim)) {
        char a[UNIT_TEXT], b[UNIT_TEXT];
        refuse(v, s,
               arena_printf(v->c->arena, "is %s in the guide, not %s",
                            dim_name(was->quantity->dim, a),
                            dim_name(now->quantity->dim, b)));
    } else
        return true;
    return false;
}

/* Each stage is held against its own; another number of them is outside. */
static bool is_outside(const struct quantity *was, const struct quantity *now,
                       bool staged) {
    bool parts = staged && was->op == QUANTITY_ADD;
    if (parts != (staged && now->op == QUANTITY_ADD))
        return true;
    if (parts)
        return is_outside(was->arg[0], now->arg[0], true) ||
               is_outside(was->arg[1], now->arg[1], true);
    struct ends stated = range_ends(was);
    double x = now->nominal, slack = 1e-12 * fabs(x);
    return x < stated.low - slack || x > stated.high + slack;
}

static bool outside(const struct value *was, const struct value *now) {
    return was != NULL && was->type == VALUE_QUANTITY &&
           is_outside(was->quantity, now->quantity, was->staged && now->staged);
}

static void list_figures(struct values *v, size_t variant) {
    struct job_figure *list =
        arena_alloc(v->c->arena, v->job_set_count + 1, sizeof *list);
    v->job_figure = list;
    for (size_t i = 0; i < v->job_set_count; i++) {
        const struct job_set *s = &v->job_set[i];
        if (!fits(v, s, variant)) {
            job_silence(v, s);
            continue;
        }
        const struct slot *now = &v->slot[s->slot];
        const struct slot *was = s->was == SIZE_MAX ? NULL : &v->slot[s->was];
        struct job_figure *f = &list[v->job_figure_count++];
        f->name = s->name;
        f->note = s->note;
        f->set =
            values_print(v, v->c->arena, &now->named, variant, PRINT_RANGE);
        f->stated = was == NULL ? NULL
                                : values_print(v, v->c->arena, &was->named,
                                               variant, PRINT_RANGE);
        f->outside =
            outside(was == NULL ? NULL : &was->named.by_variant[variant],
                    &now->named.by_variant[variant]);
    }
}

/* --- readings --- */

/* The row of limits with this id that is for the vehicle. */
static const struct entry *find_row(const struct values *v, struct text id,
                                    struct nearest *near,
                                    const struct block **limits) {
    const struct guide *g = v->guide;
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        for (size_t k = 0; b->kind->id == KIND_LIMITS && k < b->entry_count;
             k++) {
            const struct entry *row = &b->entries[k];
            const struct cell *cell =
                row->kind == ENTRY_ROW ? tree_cell(b, row, "id") : NULL;
            if (cell == NULL || values_of_row(v, b, row) == 0)
                continue;
            nearest_offer(near, cell->text);
            *limits = b;
            if (text_equal(cell->text, id))
                return row;
        }
    }
    return NULL;
}

static enum job_verdict judge(const struct job_reading *r,
                              const struct quantity *q) {
    if (q == NULL || (isinf(r->low) && isinf(r->high)))
        return JOB_NO_VERDICT;
    double slack = 1e-12 * fabs(q->nominal);
    return q->nominal < r->low - slack || q->nominal > r->high + slack
               ? JOB_OUT_OF_LIMIT
               : JOB_IN_LIMIT;
}

static const struct quantity *refuse_figure(struct values *v, struct span at,
                                            const char *why) {
    diag_add(v->c->diags, DIAG_JOB_FIGURE, at, "%s", why);
    return NULL;
}

/* What is below zero where the limit is not: a temperature, and how far one is
 * from another, may be. */
static bool lacks_sign(const struct quantity *q,
                       const struct limit_band *band) {
    struct dim kelvin = unit_find("K", 1)->dim;
    if (band->like == NULL || dim_same(q->dim, kelvin))
        return false;
    return q->nominal < 0 && (isinf(band->low) || band->low >= 0) &&
           (isinf(band->high) || band->high >= 0);
}

static const struct quantity *refuse_sign(struct values *v, struct span at,
                                          const struct quantity *q) {
    struct dim volt = unit_find("V", 1)->dim, amp = unit_find("A", 1)->dim;
    bool leads = dim_same(q->dim, volt) || dim_same(q->dim, amp);
    struct quantity *bare = quantity_abs(&v->maker, q);
    bare->unit = q->unit;
    bare->decimals = q->decimals;
    return refuse_figure(
        v, at,
        arena_printf(v->c->arena,
                     "%s is below zero, no end of its limit is%s; write it "
                     "without its sign, %s, or give the guide a limit that "
                     "begins below zero",
                     figure_of(v->c->arena, q, FIGURE_PLAIN),
                     leads ? " (were the leads of the meter swapped?)" : "",
                     figure_of(v->c->arena, bare, FIGURE_PLAIN)));
}

/* "; write 24.4 mm", as the limit is written. */
static const char *in_its_unit(struct values *v, struct text number,
                               const struct quantity *limit) {
    const struct unit *u = figure_unit(limit);
    const char *usual = misread_bare(v->c->arena, number, limit->dim);
    return u == NULL || usual[0] == '\0'
               ? usual
               : arena_printf(v->c->arena, "; write %.*s %s", (int)number.len,
                              number.start, u->name);
}

/* "24.4" of "24.4 m" */
static struct text digits_of(struct span at) {
    struct text t = text_trim(place_text(at));
    size_t len = strspn(t.start, "+-0123456789.");
    return text_part(t, 0, len < t.len ? len : t.len);
}

/* --- a figure that was written in another unit than it was read in --- */

/* A reading that is so many times a limit, or such a part of it, is asked
 * about: a thousand is m for mm. Where the same number in the unit of the limit
 * would be near it, a twentieth is enough: 25.4 is in for mm. Where the limit
 * is a least and has no other end, a decimal point that slipped would pass:
 * 190 mm for 19.0. A new pad or tread has some five times its least, so that
 * eight times is asked about (common practice, no source). Ours. */
static const double FAR = 500, FAR_AS_SLIP = 20, NEAR = 3, FAR_PAST_LEAST = 8,
                    FAR_APART = 5;

/* The end of the band that the reading is nearest to; 0: none but 0. */
static double edge_near(const struct limit_band *band, double x) {
    double ends[2] = {band->low, band->high}, near = 0;
    for (size_t i = 0; i < 2; i++) {
        bool fits = isfinite(ends[i]) && ends[i] != 0 && ends[i] / x > 0;
        if (fits && (near == 0 || fabs(log(x / ends[i])) < fabs(log(x / near))))
            near = ends[i];
    }
    return near;
}

/* Far on the good side of a limit that has no other end is usual of some: no
 * drop at all, megohms of insulation, hours of rest. */
static bool is_usual(const struct limit_band *band, double times) {
    struct dim dim = band->like->dim;
    if (isinf(band->high))
        return times > 1 && (dim_same(dim, unit_find("ohm", 3)->dim) ||
                             dim_same(dim, unit_find("s", 1)->dim));
    return times < 1 && (isinf(band->low) || band->low <= 0);
}

/* Found and left are much the same, far from the limit as they may be: of what
 * has nothing to do with its least, the way to an exhaust. */
static bool agrees(const struct quantity *q, const struct quantity *other) {
    double ratio = other == NULL ? 0 : q->nominal / other->nominal;
    return ratio < FAR_APART && ratio > 1 / FAR_APART;
}

/* Asks whether it is meant in the unit of the limit, or whether its point is in
 * the right place. `other`: what was found, or left, at the same place. */
static void question_far(struct values *v, const struct entry *row,
                         const char *column, const struct quantity *q,
                         const struct quantity *other,
                         const struct limit_band *band) {
    struct arena *a = v->c->arena;
    if (q == NULL || band->like == NULL || q->nominal == 0 ||
        dim_same(q->dim, unit_find("K", 1)->dim))
        return;
    double edge = edge_near(band, q->nominal);
    const struct unit *own = figure_unit(q), *unit = figure_unit(band->like);
    if (edge == 0 || own == NULL || unit == NULL)
        return;
    double number = unit_from_si(own, q->nominal);
    double times = q->nominal / edge;
    double off = fmax(times, 1 / times);
    double meant = unit_to_si(unit, number) / edge;
    bool slip =
        own != unit && off >= FAR_AS_SLIP && meant <= NEAR && meant >= 1 / NEAR;
    bool past_least =
        isinf(band->high) && times >= FAR_PAST_LEAST && !agrees(q, other);
    if (!slip && ((off < FAR && !past_least) || is_usual(band, times)))
        return;
    struct span at = tree_cell(v->guide->job, row, column)->at;
    const char *how = times > 1 ? arena_printf(a, "%.0f times", times)
                                : arena_printf(a, "1/%.0f of", 1 / times);
    diag_add(v->c->diags, DIAG_JOB_FAR, at, "%s is %s its limit%s",
             figure_of(a, q, FIGURE_PLAIN), how,
             slip         ? arena_printf(a, "; was %.*s %s meant?",
                                         (int)digits_of(at).len, digits_of(at).start,
                                         unit->name)
             : off >= FAR ? "; is its unit the right one?"
                          : "; is its decimal point in the right place?");
}

/* A reading that can be judged; NULL: none, or after a message. */
static const struct quantity *taken(struct values *v, const struct entry *row,
                                    const char *column, size_t variant,
                                    const struct limit_band *band) {
    const struct block *job = v->guide->job;
    const struct cell *cell = tree_cell(job, row, column);
    if (cell == NULL || cell->text.len == 0)
        return NULL;
    const struct quantity *q = cells_quantity(v, job, row, column, variant);
    const struct quantity *like = band->like;
    struct span at = cell->at;
    if (q == NULL) {
        bool told = values_print_cell(v, v->c->arena, job, row, column,
                                      (variant_set)1 << variant) == NULL;
        return told ? NULL
                    : refuse_figure(v, at,
                                    "write the one figure that the display "
                                    "showed, such as 0.2 V; of what it cannot "
                                    "show, the end of its range");
    }
    /* As a display shows it: of a range or a tolerance the middle would be
     * judged, and which end was meant nobody knows. */
    if (!range_is_single(q))
        return refuse_figure(
            v, at,
            "write the one figure that the display showed; how far it may be "
            "off stands in the guide, under instrument");
    if (like == NULL || dim_same(q->dim, like->dim))
        return lacks_sign(q, band) ? refuse_sign(v, at, q) : q;
    char a[UNIT_TEXT], b[UNIT_TEXT];
    if (dim_none(q->dim) && q->unit == NULL)
        diag_add(v->c->diags, DIAG_UNIT_MISSING, at, "the limit is %s%s",
                 dim_name(like->dim, a), in_its_unit(v, cell->text, like));
    else
        diag_add(v->c->diags, DIAG_DIMENSION, at,
                 "the limit is %s, this is %s%s", dim_name(like->dim, a),
                 dim_name(q->dim, b),
                 misread_meant(v->c->arena, q->unit, like->dim));
    return NULL;
}

/* "yes" or "no", as the limit is one; NULL: none, or after a message. */
static const char *answered(struct values *v, const struct entry *row,
                            const char *column, size_t variant) {
    const struct block *job = v->guide->job;
    const struct cell *cell = tree_cell(job, row, column);
    const char *said = cell == NULL || cell->text.len == 0
                           ? NULL
                           : values_print_cell(v, v->c->arena, job, row, column,
                                               (variant_set)1 << variant);
    if (said == NULL || strcmp(said, "yes") == 0 || strcmp(said, "no") == 0)
        return said;
    refuse_figure(v, cell->at, "its limit is yes or no; write one of them");
    return NULL;
}

static enum job_verdict judge_answer(const char *said, bool wanted) {
    if (said == NULL)
        return JOB_NO_VERDICT;
    return (strcmp(said, "yes") == 0) == wanted ? JOB_IN_LIMIT
                                                : JOB_OUT_OF_LIMIT;
}

static void take_answers(struct values *v, const struct entry *row,
                         size_t variant, struct job_reading *r, bool wanted) {
    r->found_text = answered(v, row, "found", variant);
    r->left_text = answered(v, row, "left", variant);
    r->was = judge_answer(r->found_text, wanted);
    r->is = judge_answer(r->left_text, wanted);
}

static const char *shown(struct values *v, const struct quantity *q) {
    return q == NULL ? NULL : figure_of(v->c->arena, q, FIGURE_PLAIN);
}

static void take_figures(struct values *v, const struct entry *row,
                         const struct cell *limit, size_t variant,
                         struct job_reading *r) {
    struct limit_band band = {-INFINITY, INFINITY, NULL};
    if (limit_band(v, r->limits, limit, variant, &band)) {
        r->low = band.low;
        r->high = band.high;
    }
    instrument_accepts(v, r->row, variant, &r->low, &r->high);
    r->found = taken(v, row, "found", variant, &band);
    r->left = taken(v, row, "left", variant, &band);
    question_far(v, row, "found", r->found, r->left, &band);
    question_far(v, row, "left", r->left, r->found, &band);
    r->found_text = shown(v, r->found);
    r->left_text = shown(v, r->left);
    r->was = judge(r, r->found);
    r->is = judge(r, r->left);
}

static void add_reading(struct values *v, const struct entry *row,
                        size_t variant) {
    const struct block *job = v->guide->job;
    const struct cell *id = tree_cell(job, row, "reading");
    struct nearest near = nearest_to(id->text);
    struct job_reading r = {.low = -INFINITY, .high = INFINITY};
    r.row = find_row(v, id->text, &near, &r.limits);
    if (r.row == NULL) {
        struct text best = {near.best, near.best_len};
        diag_add(v->c->diags, DIAG_JOB_READING, id->at, "'%.*s'%s",
                 (int)id->text.len, id->text.start,
                 suggest(v->c->arena, id->text, best));
        return;
    }
    for (size_t i = 0; i < v->job_reading_count; i++)
        if (v->job_reading[i].row == r.row) {
            diag_add(v->c->diags, DIAG_JOB_FIGURE, id->at,
                     "'%.*s' stands in two rows; one has what was found and "
                     "what is left",
                     (int)id->text.len, id->text.start);
            return;
        }
    const struct cell *limit = tree_cell(r.limits, r.row, "limit");
    bool wanted;
    if (limit_is_answer(v, r.limits, limit, variant, &wanted))
        take_answers(v, row, variant, &r, wanted);
    else
        take_figures(v, row, limit, variant, &r);
    if (r.is == JOB_OUT_OF_LIMIT)
        diag_add(v->c->diags, DIAG_JOB_OUT, tree_cell(job, row, "left")->at,
                 "%.*s as left; the limit is %s", (int)id->text.len,
                 id->text.start,
                 values_print_cell(v, v->c->arena, r.limits, r.row, "limit",
                                   v->applies));
    v->job_reading[v->job_reading_count++] = r;
}

void job_check_sets(struct values *v) {
    if (v->guide->job != NULL)
        list_figures(v, values_first(v));
}

void job_check_readings(struct values *v) {
    const struct block *job = v->guide->job;
    if (job == NULL)
        return;
    size_t variant = values_first(v);
    v->job_reading =
        arena_alloc(v->c->arena, job->entry_count + 1, sizeof *v->job_reading);
    for (size_t i = 0; i < job->entry_count; i++)
        if (job->entries[i].kind == ENTRY_ROW)
            add_reading(v, &job->entries[i], variant);
}

size_t values_job_figures(const struct values *v,
                          const struct job_figure **list) {
    *list = v->job_figure;
    return v->job_figure_count;
}

size_t values_job_readings(const struct values *v,
                           const struct job_reading **list) {
    *list = v->job_reading;
    return v->job_reading_count;
}

/* judge.c - requirements judged over their ranges and their printed figures.
 *
 * A requirement holds when it holds at the worst end of the difference of its
 * sides, unrounded, and also for the figures as they are printed: what the
 * reader can check on paper must come out the same. */
#include "checks/judge.h"

#include "base/arena.h"
#include "base/diag.h"
#include "base/list.h"
#include "checks/deference.h"
#include "checks/margin.h"
#include "checks/remedy.h"
#include "checks/waiver.h"
#include "checks/worst.h"
#include "source/kind.h"
#include "source/tree.h"
#include "values/figure.h"
#include "values/range.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

/* One requirement in one variant, worded. */
struct judgment {
    const struct requirement *r;
    const struct quantity *room; /* between its sides; NULL: never holds */
    bool holds, by_printing;     /* fails only as printed */
    bool too_little;             /* the value, where it fails */
    const char *value, *limit, *margin;
    const char *words; /* in place of figures, where there are none */
    double slack;
    const char *detail; /* for the message, without the variant */
    variant_set variants;
    size_t next; /* in the list, of those alike in place; SIZE_MAX: none */
};

struct judge {
    struct compile *c;
    const struct guide *guide;
    const struct values *values;
    struct quantity_maker maker;
    struct remedies *remedies;
    struct judgment *list;
    size_t count;
    size_t *bucket; /* first judgment by place; SIZE_MAX: none */
    size_t bucket_count;
};

static void judge_numbers(struct judge *j, struct judgment *one) {
    const struct requirement *r = one->r;
    one->room = requirement_room(&j->maker, r);
    bool exact = requirement_holds(one->room, r);
    one->holds = exact && (r->sizes != NULL || requirement_shows(r));
    one->by_printing = exact && !one->holds;
}

static const char *in_words(enum relation relation) {
    switch (relation) {
    case RELATION_AT_MOST:
        return "at most";
    case RELATION_BELOW:
        return "below";
    case RELATION_AT_LEAST:
        return "at least";
    case RELATION_ABOVE:
        return "above";
    case RELATION_EQUAL:
        return "equal to";
    }
    return "";
}

/* More where a limit in figures as coarse as the value's would be another: 1.33
 * ft, and not 1 ft, beside a value written as 3 ft. */
static int enough_decimals(double limit, const struct unit *u, int decimals) {
    double number = u == NULL ? limit : unit_from_si(u, limit);
    for (int more = 0; more < 3; more++, decimals++) {
        double off = round_value(number, decimals, ROUND_HALF_EVEN) - number;
        if (fabs(off) <= 0.05 * fabs(number))
            break;
    }
    return decimals;
}

/* Sides that hold, as printed: outward, the limit inward. */
static void word_sides(struct judge *j, struct judgment *one,
                       const struct requirement_worst *w) {
    struct arena *a = j->c->arena;
    const struct requirement *r = one->r;
    bool turned = requirement_turned(r);
    if (w->together) {
        int decimals;
        const struct unit *u = margin_unit(r, &decimals);
        one->value = figure_text(a, w->value, u, r->left->dim, decimals,
                                 ROUND_HALF_EVEN);
        one->limit = figure_text(a, w->limit, u, r->right->dim, decimals,
                                 ROUND_HALF_EVEN);
        return;
    }
    one->value = figure_of(a, r->left, turned ? FIGURE_LOW : FIGURE_HIGH);
    one->limit =
        figure_of(a, r->right, turned ? FIGURE_AT_LEAST : FIGURE_AT_MOST);
}

/* Value, limit and margin at the worst end, with digits enough to differ. */
static void word_numbers(struct judge *j, struct judgment *one) {
    struct arena *a = j->c->arena;
    const struct requirement *r = one->r;
    struct requirement_worst w = requirement_worst(j->c->arena, one->room, r);
    double left = range_low(one->room);
    one->slack = w.limit != 0 ? left / fabs(w.limit) : copysign(INFINITY, left);
    if (one->holds || one->by_printing) {
        word_sides(j, one, &w);
        one->margin = one->by_printing ? "less than the last printed digit"
                      : w.limit == 0   ? ""
                                       : margin_text(a, r, &w, one->slack);
        return;
    }
    int decimals;
    const struct unit *u = margin_unit(r, &decimals);
    decimals = enough_decimals(w.limit, u, decimals);
    one->too_little = w.value < w.limit;
    if (round_snap(w.value) != round_snap(w.limit))
        figure_apart(a, w.value, w.limit, u, r->left->dim, decimals,
                     &one->value, &one->limit, &one->margin);
    else /* below it, and yet equal */
        one->value = one->limit =
            figure_text(a, w.limit, u, r->left->dim, decimals, ROUND_HALF_EVEN);
}

static const char *subject(struct judge *j, const struct requirement *r) {
    if (r->rule == NULL)
        return r->what;
    if (r->block->name.len == 0 || j->c->single)
        return arena_printf(j->c->arena, "%s: %s", r->block->kind->name,
                            r->what);
    return arena_printf(j->c->arena, "%s %.*s: %s", r->block->kind->name,
                        (int)r->block->name.len, r->block->name.start, r->what);
}

/* From here on a current is hardly that of a part that was chosen too small.
 * Ours. */
static const double FAR_ABOVE = 2;

/* A path of a circuit takes far more than it may: a larger part would hide that
 * it is a short, or that its load was forgotten. */
static bool may_be_short(const struct requirement *r) {
    static const char *const rules[] = {"share", "ampacity", "contact"};
    bool carried = false;
    for (size_t i = 0; i < 3 && r->rule != NULL; i++)
        carried |= strcmp(r->rule, rules[i]) == 0;
    return carried && r->block->kind->id == KIND_CIRCUIT && r->left != NULL &&
           r->right != NULL &&
           range_ends(r->left).high > FAR_ABOVE * range_ends(r->right).low;
}

static const char *cure_of(struct judge *j, const struct requirement *r) {
    const char *cure = r->cure != NULL ? r->cure : remedy_find(j->remedies, r);
    if (may_be_short(r))
        return arena_printf(j->c->arena,
                            "; so far above it the path may be a short, or "
                            "lack its load%s%s",
                            cure == NULL ? "" : "; else ",
                            cure == NULL ? "" : cure);
    return cure == NULL ? "" : arena_printf(j->c->arena, "; %s", cure);
}

/* "share: 14.3 A must be at most 12 A, it is 2.3 A too much" */
static const char *failure_of(struct judge *j, const struct judgment *one) {
    struct arena *a = j->c->arena;
    const struct requirement *r = one->r;
    const char *name = subject(j, r);
    if (one->words != NULL)
        return arena_printf(a, "%s: %s", name, one->words);
    if (one->by_printing)
        return arena_printf(a,
                            "%s: it holds unrounded but not as printed, %s "
                            "against %s; print it in a finer unit",
                            name, one->value, one->limit);
    const char *by =
        one->margin == NULL
            ? "not equal to it"
            : arena_printf(a, "it is %s %s", one->margin,
                           one->too_little ? "too little" : "too much");
    return arena_printf(a, "%s: %s must be %s %s, %s", name, one->value,
                        in_words(r->relation), one->limit, by);
}

static const char *detail_of(struct judge *j, const struct judgment *one) {
    bool figures = one->words == NULL && !one->by_printing;
    return arena_printf(j->c->arena, "%s%s%s", failure_of(j, one),
                        figures ? worst_words(j->c->arena, one->r, one->room)
                                : "",
                        cure_of(j, one->r));
}

static struct judgment judge_one(struct judge *j, const struct requirement *r) {
    struct judgment one = {.r = r,
                           .words = r->left == NULL ? r->trouble : r->sizes,
                           .slack = INFINITY,
                           .variants = (variant_set)1 << r->variant,
                           .next = SIZE_MAX};
    if (r->left != NULL) {
        judge_numbers(j, &one);
        if (r->sizes == NULL)
            word_numbers(j, &one);
    }
    if (!one.holds)
        one.detail = detail_of(j, &one);
    return one;
}

static bool same_text(const char *a, const char *b) {
    return a == b || (a != NULL && b != NULL && strcmp(a, b) == 0);
}

static bool same_judgment(const struct judgment *a, const struct judgment *b) {
    return a->r->block == b->r->block && a->holds == b->holds &&
           same_text(a->r->rule, b->r->rule) &&
           same_text(a->r->what, b->r->what) && same_text(a->value, b->value) &&
           same_text(a->limit, b->limit) && same_text(a->words, b->words) &&
           same_text(a->detail, b->detail) && a->r->at.start == b->r->at.start;
}

static size_t *bucket_of(struct judge *j, const struct judgment *one) {
    size_t hash = one->r->block->index * 31 + one->r->at.start;
    return &j->bucket[hash % j->bucket_count];
}

static void keep(struct judge *j, struct judgment one) {
    size_t *link = bucket_of(j, &one);
    for (; *link != SIZE_MAX; link = &j->list[*link].next) {
        struct judgment *other = &j->list[*link];
        if (!same_judgment(other, &one))
            continue;
        other->variants |= one.variants;
        other->slack = fmin(other->slack, one.slack);
        return;
    }
    *link = j->count;
    j->list[j->count++] = one;
}

/* 33 CFR 183.455 lets a device be up to 150 % of the ampacity: nothing is
 * signed away beyond that. */
static bool beyond_ceiling(const struct requirement *r) {
    if (strcmp(r->rule, "H06") != 0 || r->left == NULL)
        return false;
    return range_ends(r->left).high > 1.5 * range_ends(r->right).low;
}

/* A block, or an element of a circuit. */
static bool same_place(const struct requirement *a,
                       const struct requirement *b) {
    return a->block == b->block && same_text(a->part, b->part);
}

/* "F3, F1, W5": all where the rule fails, in that block (NULL: in any), each
 * once. *count tells how many. */
static const char *failing_places(const struct judge *j, const char *rule,
                                  const struct block *in, size_t *count) {
    struct buf b = buf_in(j->c->arena);
    *count = 0;
    for (size_t i = 0; i < j->count; i++) {
        const struct judgment *one = &j->list[i];
        bool known = one->holds || !same_text(one->r->rule, rule) ||
                     (in != NULL && in != one->r->block);
        for (size_t k = 0; k < i && !known; k++)
            known = !j->list[k].holds && same_text(j->list[k].r->rule, rule) &&
                    same_place(j->list[k].r, one->r);
        if (known)
            continue;
        if ((*count)++ > 0)
            buf_puts(&b, ", ");
        waiver_put_place(&b, one->r->block, one->r->part);
    }
    return buf_cstr(&b);
}

/* One that names no element, where several fail: whose reason it is nobody can
 * tell. Told once. */
static bool is_too_wide(struct judge *j, const struct requirement *r,
                        struct waiving *by) {
    size_t count;
    const char *places = failing_places(j, r->rule, by->in, &count);
    if (by->narrow || count < 2)
        return false;
    if (!by->wide)
        diag_add(j->c->diags, DIAG_OVERRIDE_WIDE, by->block->at,
                 "%s fails at %s; write at: and those of them that the reason "
                 "is for",
                 r->rule, places);
    by->wide = true;
    return true;
}

static struct waiving *overriding(struct judge *j, const struct judgment *one,
                                  const struct verdicts *out) {
    const struct requirement *r = one->r;
    struct waiving *by = one->holds || r->rule == NULL
                             ? NULL
                             : waiver_find(out, r->rule, r->block, r->part);
    if (by == NULL || is_too_wide(j, r, by))
        return NULL;
    by->used = true;
    if (!r->stops && !beyond_ceiling(r))
        return by;
    diag_add(j->c->diags, DIAG_OVERRIDE_CEILING, by->block->at, "%s",
             r->stops ? "nothing that hangs on it could be worked out, nor "
                        "checked"
                      : "more than 150 % of the ampacity of its wire");
    return NULL;
}

/* Another that fails for the same slip, in all its variants, and has its
 * message. */
static bool is_told_by(const struct judge *j, const struct judgment *one,
                       const struct verdicts *out) {
    const struct slip *same = &one->r->same;
    for (size_t i = 0; i < j->count && same->rule != NULL; i++) {
        const struct judgment *other = &j->list[i];
        if (!other->holds && other->r->same.rule == NULL &&
            other->r->block == same->block &&
            same_text(other->r->rule, same->rule) &&
            same_text(other->r->part, same->part) &&
            (one->variants & ~other->variants) == 0 &&
            waiver_find(out, same->rule, same->block, same->part) == NULL)
            return true;
    }
    return false;
}

/* "; in mark 3" */
static const char *readers(struct judge *j, const struct judgment *one) {
    struct arena *a = j->c->arena;
    if (one->variants == values_applies(j->values))
        return "";
    const char *names = values_variant_names(j->values, a, one->variants);
    return names[0] == '\0' ? "" : arena_printf(a, "; in %s", names);
}

/* What an override lets through stands in the annex, with its reason. A job
 * that sets figures is told of it: the reason was given for those of the guide.
 */
static void tell(struct judge *j, const struct judgment *one,
                 struct waiving *by) {
    const struct block *job = j->guide->job;
    if (job == NULL || tree_setting(job, "set") == NULL)
        return;
    diag_add(j->c->diags, DIAG_OVERRIDDEN, one->r->at, "%s%s",
             failure_of(j, one), readers(j, one));
    diag_note(j->c->diags, (struct span){0}, "override %s: %s", one->r->rule,
              waiver_setting(j->c->arena, by->block, "reason"));
}

static void report(struct judge *j, const struct judgment *one) {
    const struct requirement *r = one->r;
    enum diag_id id = DIAG_CHECK_FAILED;
    if (r->flag)
        id = deference_flag(j->guide);
    diag_add(j->c->diags, id, r->at, "%s%s", one->detail, readers(j, one));
    if (r->rule != NULL && r->source != NULL)
        diag_note(j->c->diags, (struct span){0}, "rule %s: %s", r->rule,
                  r->source);
    else if (r->source != NULL)
        diag_note(j->c->diags, (struct span){0}, "reason: %s", r->source);
}

static void add_verdict(struct judge *j, const struct judgment *one,
                        bool overridden, struct verdicts *out) {
    out->list = list_grown(j->c->arena, out->list, out->count, &out->room,
                           sizeof *out->list);
    const struct requirement *r = one->r;
    const char *worded = r->what;
    if (one->words != NULL) /* in the column where words have room */
        worded = arena_printf(j->c->arena, "%s: %s", r->what, one->words);
    out->list[out->count++] =
        (struct verdict){.block = r->block,
                         .rule = r->rule,
                         .what = worded,
                         .part = r->part,
                         .value = one->value != NULL ? one->value : "",
                         .limit = one->limit,
                         .margin = one->margin,
                         .slack = one->slack,
                         .source = r->source,
                         .holds = one->holds,
                         .too_little = one->too_little,
                         .overridden = overridden,
                         .flag = r->flag,
                         .variants = one->variants};
}

static void judge_each(struct judge *j) {
    size_t count = requirement_count(j->values);
    j->list = arena_alloc(j->c->arena, count + 1, sizeof *j->list);
    j->bucket_count = count + 1;
    j->bucket = arena_alloc(j->c->arena, j->bucket_count, sizeof *j->bucket);
    for (size_t i = 0; i < j->bucket_count; i++)
        j->bucket[i] = SIZE_MAX;
    for (size_t i = 0; i < count; i++)
        keep(j, judge_one(j, requirement_at(j->values, i)));
}

void judge_all(struct compile *c, const struct guide *g, const struct values *v,
               struct verdicts *out) {
    struct judge j = {.c = c,
                      .guide = g,
                      .values = v,
                      .maker = requirement_maker(v),
                      .remedies = remedy_new(c, g, v)};
    judge_each(&j);
    remedy_end(j.remedies);
    waiver_begin(c, g, out);
    for (size_t i = 0; i < j.count; i++) {
        const struct judgment *one = &j.list[i];
        if (!one->holds && is_told_by(&j, one, out))
            continue;
        struct waiving *by = overriding(&j, one, out);
        add_verdict(&j, one, by != NULL, out);
        if (by != NULL)
            tell(&j, one, by);
        else if (!one->holds)
            report(&j, one);
    }
}

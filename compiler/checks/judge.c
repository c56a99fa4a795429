/* judge.c - requirements judged over their ranges and their printed figures.
 *
 * A requirement holds when it holds at the worst end of the difference of its
 * sides, unrounded, and also for the figures as they are printed: what the
 * reader can check on paper must come out the same. */
#include "checks/judge.h"

#include "base/arena.h"
#include "base/diag.h"
#include "checks/remedy.h"
#include "source/kind.h"
#include "source/tree.h"
#include "values/figure.h"
#include "values/range.h"

#include <math.h>
#include <string.h>

/* One requirement in one variant, worded. */
struct judgment {
    const struct requirement *r;
    bool holds, by_printing; /* fails only as printed */
    const char *value, *limit, *margin;
    double slack;
    bool too_low;       /* the value, not too high */
    const char *detail; /* for the message, without the variant */
    variant_set variants;
};

struct judge {
    struct compile *c;
    const struct guide *guide;
    const struct values *values;
    struct quantity_maker maker;
    struct judgment *list;
    size_t count;
};

/* The SI value of a figure as printed. */
static double as_printed(const struct quantity *q, double si,
                         enum round_way way) {
    const struct unit *u = figure_unit(q);
    int decimals = figure_decimals(q, u);
    double number = u == NULL ? si : unit_from_si(u, si);
    /* A literal prints exactly, however many digits that takes. */
    if (q->decimals >= 0 && q->op == QUANTITY_ROOT)
        return si;
    double shown = round_value(number, decimals, way);
    return u == NULL ? shown : unit_to_si(u, shown);
}

/* left <= right as two independent printed figures; true where the ranges
 * overlap and only the difference decides. */
static bool holds_printed(const struct quantity *left,
                          const struct quantity *right, bool strict) {
    struct ends l = range_ends(left), r = range_ends(right);
    if (l.high > r.low)
        return true;
    double high = round_snap(as_printed(left, l.high, ROUND_UP));
    double low = round_snap(as_printed(right, r.low, ROUND_DOWN));
    double slack = 1e-12 * fmax(fabs(high), fabs(low));
    return strict ? high < low : high <= low + slack;
}

static bool not_below(struct judge *j, const struct quantity *left,
                      const struct quantity *right, bool strict) {
    const struct quantity *room =
        quantity_binary(&j->maker, QUANTITY_SUBTRACT, right, left);
    if (strict)
        return range_ends(room).low > 0;
    return requirement_holds(room, left, right);
}

/* The sides in the order small <= large. */
static void order_sides(const struct requirement *r,
                        const struct quantity **small,
                        const struct quantity **large) {
    bool turned =
        r->relation == RELATION_AT_LEAST || r->relation == RELATION_ABOVE;
    *small = turned ? r->right : r->left;
    *large = turned ? r->left : r->right;
}

static void judge_numbers(struct judge *j, struct judgment *one) {
    const struct requirement *r = one->r;
    const struct quantity *small, *large;
    order_sides(r, &small, &large);
    bool strict =
        r->relation == RELATION_BELOW || r->relation == RELATION_ABOVE;
    bool exact = not_below(j, small, large, strict);
    if (r->relation == RELATION_EQUAL)
        exact = exact && not_below(j, large, small, false);
    one->holds = exact && (r->sizes != NULL || r->relation == RELATION_EQUAL ||
                           holds_printed(small, large, strict));
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

/* No more decimals than it takes, up to two more than the root's own. */
static int corner_decimals(double si, const struct unit *u, int own) {
    double number = round_snap(u == NULL ? si : unit_from_si(u, si));
    for (int decimals = 0; decimals < own + 2; decimals++)
        if (round_snap(round_value(number, decimals, ROUND_HALF_EVEN)) ==
            number)
            return decimals;
    return own + 2;
}

/* "worst at lamp.run 3.5 m, high.current 18.2 A" */
static const char *worst_corner(struct judge *j, const struct quantity *room) {
    struct arena *a = j->c->arena;
    const struct corner *corner;
    size_t count = range_corner(a, room, false, &corner);
    struct buf b = buf_in(a);
    for (size_t i = 0; i < count && i < 4; i++) {
        const struct quantity *root = corner[i].root;
        const struct unit *u = figure_unit(root);
        int decimals =
            corner_decimals(corner[i].value, u, figure_decimals(root, u));
        buf_printf(&b, "%s%.*s %s", i == 0 ? "; worst at " : ", ",
                   (int)root->name.len, root->name.start,
                   figure_text(a, corner[i].value, u, root->dim, decimals,
                               ROUND_HALF_EVEN));
    }
    return buf_cstr(&b);
}

static bool at_least(const struct requirement *r) {
    return r->relation == RELATION_AT_LEAST || r->relation == RELATION_ABOVE;
}

static bool shares_root(struct judge *j, const struct requirement *r) {
    const struct quantity *const *left, *const *right;
    size_t lefts = range_roots(j->c->arena, r->left, &left);
    size_t rights = range_roots(j->c->arena, r->right, &right);
    for (size_t i = 0; i < lefts; i++)
        for (size_t k = 0; k < rights; k++)
            if (left[i] == right[k] && left[i]->range.low < left[i]->range.high)
                return true;
    return false;
}

/* Both sides where they are furthest on the wrong side of each other. */
struct worst {
    double value, limit;
    bool too_low;
    bool joined; /* a root stands on both sides: not their own ends */
};

static struct worst worst_ends(const struct requirement *r) {
    struct ends l = range_ends(r->left), limit = range_ends(r->right);
    struct worst low = {l.low, limit.high, true, false};
    struct worst high = {l.high, limit.low, false, false};
    if (r->relation == RELATION_EQUAL)
        return limit.high - l.low > l.high - limit.low ? low : high;
    return at_least(r) ? low : high;
}

/* How far the left side may still move towards the right one. */
static const struct quantity *
room_of(struct judge *j, const struct requirement *r, bool too_low) {
    return quantity_binary(&j->maker, QUANTITY_SUBTRACT,
                           too_low ? r->left : r->right,
                           too_low ? r->right : r->left);
}

static struct worst worst_sides(struct judge *j, const struct requirement *r) {
    struct worst w = worst_ends(r);
    if (!shares_root(j, r))
        return w;
    const struct quantity *room =
        w.too_low
            ? quantity_binary(&j->maker, QUANTITY_SUBTRACT, r->left, r->right)
            : quantity_binary(&j->maker, QUANTITY_SUBTRACT, r->right, r->left);
    const struct corner *corner;
    size_t count = range_corner(j->c->arena, room, false, &corner);
    w.value = range_at(r->left, corner, count);
    w.limit = range_at(r->right, corner, count);
    w.joined = true;
    return w;
}

static void word_kept(struct judge *j, struct judgment *one,
                      const struct worst *w, const struct unit *u,
                      int decimals) {
    struct arena *a = j->c->arena;
    const struct requirement *r = one->r;
    if (w->joined) {
        one->value = figure_text(a, w->value, u, r->left->dim, decimals,
                                 w->too_low ? ROUND_DOWN : ROUND_UP);
        one->limit = figure_text(a, w->limit, u, r->left->dim, decimals,
                                 w->too_low ? ROUND_UP : ROUND_DOWN);
    } else {
        one->value =
            figure_of(a, r->left, w->too_low ? FIGURE_LOW : FIGURE_HIGH);
        one->limit = figure_of(a, r->right,
                               w->too_low ? FIGURE_AT_LEAST : FIGURE_AT_MOST);
    }
    one->margin =
        one->by_printing ? "less than the last printed digit"
        : w->limit != 0
            ? arena_printf(a, "%.0f\xC2\xA0%%",
                           100 * fabs(w->limit - w->value) / fabs(w->limit))
            : "";
}

/* Value, limit and margin at the worst end, with digits enough to differ. */
static void word_numbers(struct judge *j, struct judgment *one) {
    struct arena *a = j->c->arena;
    const struct requirement *r = one->r;
    struct worst w = worst_sides(j, r);
    double left = w.too_low ? w.value - w.limit : w.limit - w.value;
    one->slack = w.limit != 0 ? left / fabs(w.limit) : copysign(INFINITY, left);
    one->too_low = w.too_low;
    const struct unit *u = figure_unit(r->left);
    const struct unit *limit_unit = figure_unit(r->right);
    if (r->left->decimals < 0 && limit_unit != NULL && r->right->decimals >= 0)
        u = limit_unit;
    int decimals = figure_decimals(r->left, u);
    /* A limit as written needs its own digits; a computed one does not. */
    if (r->right->decimals > decimals && u == limit_unit)
        decimals = r->right->decimals;
    if (one->holds || one->by_printing) {
        word_kept(j, one, &w, u, decimals);
    } else if (round_snap(w.value) == round_snap(w.limit)) {
        one->value = one->limit =
            figure_text(a, w.limit, u, r->left->dim, decimals, ROUND_HALF_EVEN);
    } else {
        figure_apart(a, w.value, w.limit, u, r->left->dim, decimals,
                     &one->value, &one->limit, &one->margin);
    }
}

static const char *subject(struct judge *j, const struct requirement *r) {
    if (r->rule == NULL)
        return r->what;
    if (r->block->name.len == 0)
        return arena_printf(j->c->arena, "%s: %s", r->block->kind->name,
                            r->what);
    return arena_printf(j->c->arena, "%s %.*s: %s", r->block->kind->name,
                        (int)r->block->name.len, r->block->name.start, r->what);
}

static const char *cure_of(struct judge *j, const struct requirement *r) {
    const char *cure =
        r->cure != NULL ? r->cure : remedy_find(j->c, j->guide, j->values, r);
    return cure == NULL ? "" : arena_printf(j->c->arena, "; %s", cure);
}

static const char *detail_of(struct judge *j, const struct judgment *one) {
    struct arena *a = j->c->arena;
    const struct requirement *r = one->r;
    const char *name = subject(j, r);
    if (r->left == NULL)
        return arena_printf(a, "%s: %s%s", name, r->trouble, cure_of(j, r));
    if (r->sizes != NULL)
        return arena_printf(a, "%s: %s", name, r->sizes);
    if (one->by_printing)
        return arena_printf(a,
                            "%s: it holds unrounded but not as printed, %s "
                            "against %s; print it in a finer unit%s",
                            name, one->value, one->limit, cure_of(j, r));
    const char *by =
        one->margin == NULL /* below, and yet equal */
            ? "not equal to it"
            : arena_printf(a, "it is %s %s", one->margin,
                           one->too_low ? "too little" : "too much");
    return arena_printf(a, "%s: %s must be %s %s, %s%s%s", name, one->value,
                        in_words(r->relation), one->limit, by,
                        worst_corner(j, room_of(j, r, one->too_low)),
                        cure_of(j, r));
}

static struct judgment judge_one(struct judge *j, const struct requirement *r) {
    struct judgment one = {
        .r = r, .slack = INFINITY, .variants = (variant_set)1 << r->variant};
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
           same_text(a->limit, b->limit) && same_text(a->detail, b->detail) &&
           a->r->at.start == b->r->at.start;
}

static void keep(struct judge *j, struct judgment one) {
    for (size_t i = 0; i < j->count; i++)
        if (same_judgment(&j->list[i], &one)) {
            j->list[i].variants |= one.variants;
            j->list[i].slack = fmin(j->list[i].slack, one.slack);
            return;
        }
    j->list[j->count++] = one;
}

static struct text setting_text(const struct block *b, const char *name) {
    const struct entry *e = tree_setting(b, name);
    if (e == NULL || e->choice_count == 0)
        return (struct text){NULL, 0};
    return text_trim(e->choices[0].text);
}

const struct block *judge_override(const struct guide *g, const char *rule,
                                   const struct block *at) {
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (b->kind->id != KIND_OVERRIDE || !text_is(b->name, rule))
            continue;
        struct text where = setting_text(b, "at");
        if (where.len == 0 || (at != NULL && text_equal(where, at->name)))
            return b;
    }
    return NULL;
}

/* 33 CFR 183.455 lets a device be up to 150 % of the ampacity: nothing is
 * signed away beyond that. */
static bool beyond_ceiling(const struct requirement *r) {
    if (strcmp(r->rule, "H06") != 0 || r->left == NULL)
        return false;
    return range_ends(r->left).high > 1.5 * range_ends(r->right).low;
}

static bool is_overridden(struct judge *j, const struct judgment *one) {
    const struct requirement *r = one->r;
    if (one->holds || r->rule == NULL)
        return false;
    const struct block *b = judge_override(j->guide, r->rule, r->block);
    if (b == NULL)
        return false;
    if (!beyond_ceiling(r))
        return true;
    diag_add(j->c->diags, DIAG_OVERRIDE_CEILING, b->at,
             "more than 150 %% of the ampacity of its wire");
    return false;
}

static bool is_released(const struct guide *g) {
    return g->identity != NULL &&
           text_is(setting_text(g->identity, "status"), "released");
}

static void report(struct judge *j, const struct judgment *one) {
    const char *names = "";
    if (one->variants != values_applies(j->values))
        names = values_variant_names(j->values, j->c->arena, one->variants);
    const struct requirement *r = one->r;
    enum diag_id id = DIAG_CHECK_FAILED;
    if (r->flag)
        id = is_released(j->guide) ? DIAG_FLAG_RELEASED : DIAG_FLAG_DRAFT;
    diag_add(j->c->diags, id, r->at, "%s%s%s", one->detail,
             names[0] == '\0' ? "" : "; in ", names);
    if (r->rule != NULL && r->source != NULL)
        diag_note(j->c->diags, (struct span){0}, "rule %s: %s", r->rule,
                  r->source);
    else if (r->source != NULL)
        diag_note(j->c->diags, (struct span){0}, "reason: %s", r->source);
}

static void add_verdict(struct judge *j, const struct judgment *one,
                        bool overridden, struct verdicts *out) {
    if (out->count == out->room) {
        size_t room = out->room == 0 ? 32 : out->room * 2;
        out->list = arena_grow(j->c->arena, out->list, out->count, room,
                               sizeof *out->list);
        out->room = room;
    }
    const struct requirement *r = one->r;
    /* What has no figures is told in words, where words have room. */
    const char *words = r->sizes != NULL     ? r->sizes
                        : one->value == NULL ? r->trouble
                                             : NULL;
    const char *worded =
        words == NULL ? r->what
                      : arena_printf(j->c->arena, "%s: %s", r->what, words);
    out->list[out->count++] =
        (struct verdict){.block = r->block,
                         .rule = r->rule,
                         .what = worded,
                         .value = one->value != NULL ? one->value : "",
                         .limit = one->limit,
                         .margin = one->margin,
                         .slack = one->slack,
                         .source = r->source,
                         .holds = one->holds,
                         .overridden = overridden,
                         .flag = r->flag,
                         .variants = one->variants};
}

static const char *squeezed_setting(struct compile *c, const struct block *b,
                                    const char *name) {
    struct text t = setting_text(b, name);
    return text_cstr(c->arena, text_squeezed(c->arena, t));
}

void judge_waivers(struct compile *c, const struct guide *g,
                   struct verdicts *out) {
    out->waiver =
        arena_alloc(c->arena, g->block_count + 1, sizeof *out->waiver);
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (b->kind->id != KIND_OVERRIDE)
            continue;
        if (!out->used[i])
            diag_add(c->diags, DIAG_OVERRIDE_UNUSED, b->at,
                     "%.*s holds without it, or is no rule that applies here",
                     (int)b->name.len, b->name.start);
        out->waiver[out->waiver_count++] = (struct waiver){
            b, text_cstr(c->arena, b->name), squeezed_setting(c, b, "at"),
            squeezed_setting(c, b, "reason"),
            squeezed_setting(c, b, "approver")};
    }
}

void judge_all(struct compile *c, const struct guide *g, const struct values *v,
               struct verdicts *out) {
    struct judge j = {.c = c, .guide = g, .values = v};
    j.maker = requirement_maker(v);
    size_t count = requirement_count(v);
    j.list = arena_alloc(c->arena, count + 1, sizeof *j.list);
    for (size_t i = 0; i < count; i++)
        keep(&j, judge_one(&j, requirement_at(v, i)));
    out->used = arena_alloc(c->arena, g->block_count + 1, sizeof *out->used);
    for (size_t i = 0; i < j.count; i++) {
        const struct judgment *one = &j.list[i];
        bool overridden = is_overridden(&j, one);
        if (overridden)
            out->used[judge_override(g, one->r->rule, one->r->block)->index] =
                true;
        add_verdict(&j, one, overridden, out);
        if (!one->holds && !overridden)
            report(&j, one);
    }
}

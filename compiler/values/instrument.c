/* instrument.c - an instrument can show whether a limit is met.
 *
 *   instrument := name { "," part }
 *   part       := quantity                 the step of its display
 *               | (± | +/-) term { + term }    how far off it may be
 *               | words
 *   term       := number "%" of the reading | quantity | number "digits"
 *
 * The band must be wider than a step. Where the accuracy is stated the limit is
 * drawn in by it, and the page says which readings to accept. */
#include "base/arena.h"
#include "base/diag.h"
#include "base/list.h"
#include "calc/acceptance.h"
#include "values/expression.h"
#include "values/limit.h"
#include "values/range.h"

#include <math.h>
#include <string.h>

static const char source[] = "common practice, no source";

/* A row of limits in one variant. */
struct reading {
    struct values *v;
    const struct block *block;
    const struct entry *row;
    const struct cell *limit, *instrument;
    size_t variant;
    struct dim dim;              /* of the limit, as a difference */
    const struct unit *unit;     /* of the display; NULL: a bare number */
    double low, high;            /* of the limit, in that unit; or infinite */
    const struct quantity *step; /* of the display; NULL: not stated */
    int decimals;      /* of a reading, where the display's step has none */
    double resolution; /* the same in its unit, or 0 */
    struct accuracy accuracy; /* in the unit of the display */
};

/* A number of the display's unit, for a difference of this SI size. */
static double in_display(const struct reading *r, double si) {
    return r->unit == NULL ? si : si / r->unit->factor;
}

/* The size of a difference, though it may be written as on a scale: 2 degC. */
static double size_of(const struct quantity *q) {
    const struct unit *u = figure_unit(q);
    if (!q->dim.point || u == NULL)
        return q->nominal;
    return unit_from_si(u, q->nominal) * u->factor;
}

/* A difference of this many units of the display. */
static struct quantity *difference(const struct reading *r, double number) {
    const struct unit *u = r->unit == NULL ? NULL : unit_difference(r->unit);
    return quantity_exact(&r->v->maker, u == NULL ? number : number * u->factor,
                          r->dim, u);
}

static void report_misfit(const struct reading *r, const struct quantity *q) {
    char a[UNIT_TEXT], b[UNIT_TEXT];
    const char *limit = dim_name(r->dim, a), *shown = dim_name(q->dim, b);
    bool bare = dim_none(r->dim) && r->unit == NULL;
    if (bare)
        diag_add(r->v->c->diags, DIAG_UNIT_MISSING, r->limit->at,
                 "the instrument shows %s", shown);
    else
        diag_add(r->v->c->diags, DIAG_DIMENSION, r->instrument->at,
                 "the limit is %s, the instrument shows %s", limit, shown);
}

static bool fits(const struct reading *r, const struct quantity *q) {
    bool bare = r->unit == NULL && q->unit != NULL;
    if (dim_same(q->dim, r->dim) && !bare)
        return true;
    report_misfit(r, q);
    return false;
}

/* The quantity that is all of a part; NULL: it is words, such as 1/2 in drive,
 * or after a message, which makes *bad. */
static const struct quantity *whole(const struct reading *r, struct text part,
                                    bool *bad) {
    struct expression x =
        expression_over(r->v, r->block->scope, r->variant, part);
    if (!scan_at_number(&x.scan))
        return NULL;
    struct value value = expression_sum(&x);
    *bad = value.type == VALUE_BAD;
    if (value.type != VALUE_QUANTITY || !scan_end(&x.scan))
        return NULL;
    return value.quantity;
}

static bool read_step(struct reading *r, struct text part) {
    bool bad = false;
    const struct quantity *q = whole(r, part, &bad);
    if (q == NULL)
        return !bad;
    if (!fits(r, q))
        return false;
    struct quantity *step =
        quantity_exact(&r->v->maker, size_of(q), r->dim,
                       q->unit == NULL ? NULL : unit_difference(q->unit));
    step->decimals = q->decimals;
    r->step = step;
    if (q->unit != NULL && (q->dim.point || r->unit->offset == 0))
        r->unit = q->unit; /* the display shows this unit */
    r->resolution = in_display(r, step->nominal);
    return true;
}

static bool refuse(const struct reading *r, struct text t, const char *why) {
    diag_add(r->v->c->diags, DIAG_SETTING_VALUE,
             place_of(r->block->scope->src, t), "%s", why);
    return false;
}

/* "2 digits": steps of the display. */
static bool read_digits(struct reading *r, struct text term,
                        struct text number) {
    bool bad = false;
    const struct quantity *q = whole(r, number, &bad);
    if (q == NULL || !dim_none(q->dim) || q->unit != NULL || q->nominal < 0)
        return !bad && refuse(r, term,
                              "an accuracy is written ± 0.5 % + 2 "
                              "digits, or ± 0.02 V");
    if (r->resolution == 0)
        return refuse(r, term,
                      "what is a digit? write the step of the display in "
                      "front: meter, 0.01 V, ± 0.5 % + 2 digits");
    r->accuracy.fixed += q->nominal * r->resolution;
    return true;
}

static bool ends_with_digits(struct text term, struct text *number) {
    static const char *const words[] = {"digits", "digit", "counts", "count",
                                        "dgt"};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        size_t len = strlen(words[i]);
        if (term.len > len &&
            text_is(text_part(term, term.len - len, term.len), words[i])) {
            *number = text_trim(text_part(term, 0, term.len - len));
            return true;
        }
    }
    return false;
}

static bool read_term(struct reading *r, struct text term) {
    struct text number;
    if (ends_with_digits(term, &number))
        return read_digits(r, term, number);
    bool bad = false;
    const struct quantity *q = whole(r, term, &bad);
    if (q == NULL)
        return !bad && refuse(r, term,
                              "an accuracy is written ± 0.5 % + 2 "
                              "digits, or ± 0.02 V");
    bool share = q->unit != NULL && dim_none(q->dim) && !dim_none(r->dim);
    if (!share && !fits(r, q))
        return false;
    double size = size_of(q);
    if (size < 0 || (share && size >= 1))
        return refuse(r, term,
                      "an accuracy is not below 0, nor all of the "
                      "reading");
    if (share)
        r->accuracy.share += size;
    else
        r->accuracy.fixed += in_display(r, size);
    return true;
}

/* Behind its sign. */
static bool read_accuracy(struct reading *r, struct text t) {
    if (t.len > 1 && t.start[0] == '(' && t.start[t.len - 1] == ')')
        t = text_part(t, 1, t.len - 1); /* as data sheets have it */
    struct text term;
    bool any = false, good = true;
    while (good && text_next_part(&t, '+', &term)) {
        good = read_term(r, term);
        any = true;
    }
    if (good && !any)
        return refuse(r, r->instrument->text, "a figure belongs behind ±");
    if (good && r->accuracy.share >= 1)
        return refuse(r, r->instrument->text,
                      "the accuracy is all of the reading");
    return good;
}

static bool takes_sign(struct text *part) {
    static const char *const signs[] = {"\xC2\xB1", "+/-"};
    for (size_t i = 0; i < 2; i++)
        if (text_starts(*part, signs[i])) {
            *part = text_trim(text_part(*part, strlen(signs[i]), part->len));
            return true;
        }
    return false;
}

/* The steps of the display first: an accuracy may count in them. */
static bool read_instrument(struct reading *r, bool *stated) {
    for (int pass = 0; pass < 2; pass++) {
        struct text rest = r->instrument->text, part;
        bool good = text_next_part(&rest, ',', &part); /* the name */
        while (good && text_next_part(&rest, ',', &part)) {
            bool accuracy = takes_sign(&part);
            *stated = *stated || accuracy;
            if (accuracy == (pass == 1))
                good = accuracy ? read_accuracy(r, part) : read_step(r, part);
        }
        if (!good)
            return false;
    }
    return true;
}

/* The ends of the limit, in SI. */
static bool read_limit(struct reading *r, double *low, double *high) {
    struct limit_band band;
    if (!limit_band(r->v, r->block, r->limit, r->variant, &band))
        return false;
    const struct quantity *q = band.like;
    *low = band.low;
    *high = band.high;
    r->dim = q->dim;
    r->dim.point = false;
    r->decimals = figure_decimals(q, figure_unit(q)) + 1;
    r->unit = q->unit == NULL && dim_none(q->dim) ? NULL : figure_unit(q);
    return true;
}

static bool is_point(const struct reading *r) {
    return r->unit != NULL && r->unit->offset != 0;
}

/* Of two figures with 15 digits; their difference has no more decimals. */
static double between(double low, double high) {
    double most = fmax(fabs(low), fabs(high));
    return round_value(high - low, round_decimals(most, 14), ROUND_HALF_EVEN);
}

/* Width of the band: the limit itself where it has one side; 0: one side of a
 * scale of temperature has none, and no instrument shows a single figure. */
static double width(const struct reading *r) {
    if (isfinite(r->low) && isfinite(r->high))
        return between(r->low, r->high);
    double side = isfinite(r->low) ? r->low : r->high;
    return is_point(r) ? 0 : fabs(side);
}

static void require(const struct reading *r, struct requirement q) {
    const struct cell *id = tree_cell(r->block, r->row, "id");
    q.block = r->block;
    q.variant = r->variant;
    q.what = arena_printf(r->v->c->arena, "%s of %.*s", q.what,
                          id == NULL ? 0 : (int)id->text.len,
                          id == NULL ? "" : id->text.start);
    q.source = source;
    q.at = r->instrument->at;
    block_require(r->v, q);
}

static int decimals_of(const struct reading *r) {
    const struct quantity *step = r->step;
    return step != NULL && step->decimals >= 0 ? step->decimals : r->decimals;
}

static const char *shown(const struct reading *r, double number,
                         enum round_way way) {
    int decimals = decimals_of(r);
    struct dim dim = r->dim;
    dim.point = is_point(r);
    double si = r->unit == NULL ? number : unit_to_si(r->unit, number);
    return figure_text(r->v->c->arena, si, r->unit, dim, decimals, way);
}

/* SI, as it is printed. */
static double printed(const struct reading *r, double number,
                      enum round_way way) {
    double x =
        isfinite(number) ? round_value(number, decimals_of(r), way) : number;
    return r->unit == NULL || !isfinite(x) ? x : unit_to_si(r->unit, x);
}

static void keep_accepted(const struct reading *r, double low, double high) {
    struct values *v = r->v;
    v->accepted = list_grown(v->c->arena, v->accepted, v->accepted_count,
                             &v->accepted_room, sizeof *v->accepted);
    v->accepted[v->accepted_count++] =
        (struct accepted){r->row, r->variant, printed(r, low, ROUND_UP),
                          printed(r, high, ROUND_DOWN)};
}

bool instrument_accepts(const struct values *v, const struct entry *row,
                        size_t variant, double *low, double *high) {
    for (size_t i = 0; i < v->accepted_count; i++) {
        const struct accepted *a = &v->accepted[i];
        if (a->row != row || a->variant != variant)
            continue;
        *low = a->low;
        *high = a->high;
        return true;
    }
    return false;
}

/* What a limit loses at both ends by the error alone, though a reading may have
 * to be a step further in: how fine the steps are is another rule. */
static double error_at_ends(const struct reading *r) {
    double error = 0;
    if (isfinite(r->low))
        error += acceptance_least(r->low, r->accuracy, 0) - r->low;
    if (isfinite(r->high))
        error += r->high - acceptance_most(r->high, r->accuracy, 0);
    return error;
}

/* "accept 11.5 V to 14.3 V" behind the limit, and whether enough is left. */
static void draw_in(const struct reading *r) {
    struct arena *a = r->v->c->arena;
    double low = r->low, high = r->high, wide = width(r);
    if (isfinite(low))
        low = acceptance_least(low, r->accuracy, r->resolution);
    if (isfinite(high))
        high = acceptance_most(high, r->accuracy, r->resolution);
    double taken = (isfinite(low) ? between(r->low, low) : 0) +
                   (isfinite(high) ? between(high, r->high) : 0);
    double error = error_at_ends(r);
    bool much = taken < wide && round_snap(4 * error) > wide;
    if (wide > 0)
        require(r, (struct requirement){
                       .rule = "accuracy",
                       .what = much ? "four times the error of the instrument"
                                    : "error of the instrument",
                       .left = difference(r, much ? 4 * error : taken),
                       .right = difference(r, wide),
                       .relation = much ? RELATION_AT_MOST : RELATION_BELOW,
                       .cure = "a better instrument",
                       .flag = much});
    if (wide > 0 && taken >= wide)
        return; /* nothing to accept */
    const char *least = isfinite(low) ? shown(r, low, ROUND_UP) : NULL;
    const char *most = isfinite(high) ? shown(r, high, ROUND_DOWN) : NULL;
    const char *text =
        least == NULL  ? arena_printf(a, "\xE2\x89\xA4\xC2\xA0%s", most)
        : most == NULL ? arena_printf(a, "\xE2\x89\xA5\xC2\xA0%s", least)
                       : arena_printf(a, "%s to %s", least, most);
    cells_add(r->v, r->block, r->row, "limit", r->variant,
              arena_printf(a, " (accept %s)", text));
    keep_accepted(r, low, high);
}

static void check_row(struct values *v, const struct block *b,
                      const struct entry *row, size_t variant) {
    struct reading r = {.v = v,
                        .block = b,
                        .row = row,
                        .limit = tree_cell(b, row, "limit"),
                        .instrument = tree_cell(b, row, "instrument"),
                        .variant = variant};
    double low, high;
    bool stated = false;
    if (r.limit == NULL || r.instrument == NULL || r.limit->text.len == 0 ||
        r.instrument->text.len == 0 || !read_limit(&r, &low, &high) ||
        !read_instrument(&r, &stated))
        return;
    r.low = r.unit == NULL || !isfinite(low) ? low : unit_from_si(r.unit, low);
    r.high =
        r.unit == NULL || !isfinite(high) ? high : unit_from_si(r.unit, high);
    double wide = width(&r);
    if (r.step != NULL && wide > 0)
        require(&r, (struct requirement){.rule = "instrument",
                                         .what = "resolution of the instrument",
                                         .left = r.step,
                                         .right = difference(&r, wide),
                                         .cure = "a finer instrument"});
    if (stated)
        draw_in(&r);
}

void instrument_require(struct values *v) {
    const struct guide *g = v->guide;
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        for (size_t k = 0; b->kind->id == KIND_LIMITS && k < b->entry_count;
             k++) {
            const struct entry *row = &b->entries[k];
            variant_set s =
                row->kind == ENTRY_ROW ? values_of_row(v, b, row) : 0;
            for (size_t n = 0; n < v->variant_count; n++)
                if (s >> n & 1)
                    check_row(v, b, row, n);
        }
    }
}

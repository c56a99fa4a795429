/* literal.c - numbers, units, tolerances and ranges as the trade writes them.
 */
#include "values/literal.h"

#include "base/arena.h"
#include "calc/rounding.h"
#include "values/misread.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

static bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

struct number {
    double value;
    int decimals; /* digits behind the point */
    bool fraction;
    struct text written; /* without the unit */
};

static char ahead(const struct scan *s, size_t by) {
    return s->at + by < s->text.len ? s->text.start[s->at + by] : '\0';
}

static size_t digits(const struct scan *s, size_t from) {
    size_t n = 0;
    while (is_digit(ahead(s, from + n)))
        n++;
    return n;
}

/* "5/16": bytes of digits, a slash and digits at `from`; 0 when there are none.
 */
static size_t fraction_length(const struct scan *s, size_t from) {
    size_t above = digits(s, from);
    if (above == 0 || ahead(s, from + above) != '/')
        return 0;
    size_t below = digits(s, from + above + 1);
    return below == 0 ? 0 : above + 1 + below;
}

static double decimal_between(const struct scan *s, size_t from, size_t to) {
    return strtod(text_cstr(s->arena, text_part(s->text, from, to)), NULL);
}

static double read_digits(struct scan *s) {
    size_t from = s->at;
    s->at += digits(s, 0);
    return decimal_between(s, from, s->at);
}

static bool read_fraction(struct scan *s, double whole, double sign,
                          struct number *out, size_t start) {
    double top = read_digits(s);
    s->at++;
    double bottom = read_digits(s);
    if (bottom == 0) {
        scan_fail(s, DIAG_NUMBER_FORM, start, s->at, "a fraction over 0");
        return false;
    }
    out->value = sign * (whole + top / bottom);
    out->fraction = true;
    return true;
}

/* A comma right between digits is a decimal comma or a thousands comma: both
 * are read differently in different countries, so neither is read here. */
static bool refuse_comma(struct scan *s, size_t start) {
    if (ahead(s, 0) != ',' || !is_digit(ahead(s, 1)))
        return false;
    size_t group = digits(s, 1);
    bool thousands = group == 3;
    scan_fail(s, DIAG_NUMBER_COMMA, start, s->at + 1 + group,
              thousands ? "write the number without it, or a decimal point"
                        : "write a decimal point");
    return true;
}

static bool read_decimal(struct scan *s, double sign, struct number *out,
                         size_t start) {
    size_t first = s->at;
    s->at += digits(s, 0);
    if (refuse_comma(s, start))
        return false;
    if (ahead(s, 0) == ' ' && fraction_length(s, 1) > 0) {
        double whole = decimal_between(s, first, s->at);
        s->at++;
        return read_fraction(s, whole, sign, out, start);
    }
    if (ahead(s, 0) == '.' && is_digit(ahead(s, 1))) {
        out->decimals = (int)digits(s, 1);
        s->at += 1 + (size_t)out->decimals;
        if (refuse_comma(s, start))
            return false;
    }
    out->value = sign * decimal_between(s, first, s->at);
    return true;
}

enum { NUMBER_BYTES = 300 };

static bool read_number(struct scan *s, struct number *out) {
    *out = (struct number){0};
    scan_blanks(s);
    size_t start = s->at;
    double sign = 1;
    if (scan_take(s, "-") || scan_take(s, "\xE2\x88\x92"))
        sign = -1;
    if (scan_peek(s) == '.') {
        scan_fail(s, DIAG_NUMBER_FORM, start, s->at + 1 + digits(s, 1),
                  "write a 0 before the point");
        return false;
    }
    bool ok = fraction_length(s, 0) > 0 ? read_fraction(s, 0, sign, out, start)
                                        : read_decimal(s, sign, out, start);
    if (!ok)
        return false;
    out->written = text_part(s->text, start, s->at);
    if (isfinite(out->value) && out->written.len <= NUMBER_BYTES)
        return true;
    scan_fail(s, DIAG_NUMBER_RANGE, start, s->at, NULL);
    return false;
}

/* Words that may follow a number and are no unit. */
static bool is_joint(struct text word) {
    static const char *const words[] = {"to",  "for",   "at",   "from",
                                        "in",  "range", "step", "or",
                                        "and", "x",     "then"};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (text_is(word, words[i]))
            return true;
    return false;
}

static size_t unit_word_length(struct text rest) {
    size_t end = 0;
    while (end < rest.len &&
           strchr(" \t\r\n(),;:[]{}<>=|", rest.start[end]) == NULL) {
        /* ± and +/- may follow without a blank */
        struct text tail = text_part(rest, end, rest.len);
        if (text_starts(tail, "\xC2\xB1") || text_starts(tail, "+/-"))
            break;
        end++;
    }
    return end;
}

/* A product or quotient of units, made for this guide: V/m, N/mm2. */
static const struct unit *composed_unit(struct scan *s, struct text word) {
    struct unit *u = arena_alloc(s->arena, 1, sizeof *u);
    char *texts = arena_alloc(s->arena, 2, UNIT_TEXT);
    return unit_compose(word.start, word.len, u, texts, texts + UNIT_TEXT)
               ? u
               : NULL;
}

/* What goes on with the expression, `2 ^ 3`: no unit begins so. */
static bool starts_other(struct text word) {
    static const char *const signs[] = {"^", "\xE2\x88\x92", "\xC3\x97",
                                        "\xE2\x89\xA4", "\xE2\x89\xA5"};
    for (size_t i = 0; i < sizeof signs / sizeof signs[0]; i++)
        if (text_starts(word, signs[i]))
            return true;
    return word.len == 0 || is_digit(word.start[0]);
}

/* The unit behind a number, or NULL when there is none. */
static const struct unit *read_unit(struct scan *s) {
    size_t before = s->at;
    scan_blanks(s);
    struct text rest = text_part(s->text, s->at, s->text.len);
    struct text word = text_part(rest, 0, unit_word_length(rest));
    bool touching = s->at == before;
    if (starts_other(word) ||
        (!touching && is_joint(word) && !text_is(word, "in"))) {
        s->at = before;
        return NULL;
    }
    size_t used = 0; /* `deg C` and `fl oz` are two words */
    const struct unit *u = unit_prefix(rest.start, rest.len, &used);
    if (u == NULL || used < word.len) {
        used = word.len;
        u = unit_find(word.start, word.len);
        if (u == NULL)
            u = composed_unit(s, word);
    }
    if (u != NULL) {
        s->at += used;
        return u;
    }
    unsigned char first = (unsigned char)word.start[0];
    bool like_unit = is_letter(word.start[0]) || first >= 0xC2 || touching;
    if (like_unit && word.start[0] != '-' && word.start[0] != '+')
        misread_unit(s, word, touching);
    else
        s->at = before;
    return NULL;
}

static struct dim dim_of(const struct unit *u) {
    return u == NULL ? (struct dim){{0}, false} : u->dim;
}

static double si_of(double number, const struct unit *u) {
    return u == NULL ? number : unit_to_si(u, number);
}

/* A literal while it is read. */
struct reading {
    struct number number;
    const struct unit *unit; /* NULL: a bare number */
    double nominal;
    struct ends range;
    size_t start;
    bool spread; /* what follows is set */
    enum spread_form form;
    struct number end[2]; /* low and high; of ±: the tolerance in the second */
    const struct unit *end_unit[2];
};

/* As it was written, for the page. */
static void set_end(struct reading *r, enum spread_form form, size_t which,
                    const struct number *n, const struct unit *u) {
    r->spread = true;
    r->form = form;
    r->end[which] = *n;
    r->end_unit[which] = u;
}

/* Nominal and ends are finite, and no colder than can be. */
static bool is_possible(struct scan *s, const struct reading *r) {
    if (!isfinite(r->nominal) || !isfinite(r->range.low) ||
        !isfinite(r->range.high)) {
        scan_fail(s, DIAG_NUMBER_RANGE, r->start, s->at, NULL);
        return false;
    }
    if (dim_of(r->unit).point && r->range.low < 0) {
        scan_fail(s, DIAG_NUMBER_RANGE, r->start, s->at, "below absolute zero");
        return false;
    }
    return true;
}

static bool is_percent(const struct unit *u) {
    return u != NULL && text_is(text_of(u->label), "%");
}

/* "12.6 V ± 5": 5 V or 5 %? */
static bool ask_for_unit(struct scan *s, const struct reading *r,
                         size_t start) {
    struct text n = text_trim(text_part(s->text, start, s->at));
    const struct unit *apart =
        r->unit->dim.point ? unit_difference(r->unit) : r->unit;
    bool share = !r->unit->dim.point && !is_percent(r->unit);
    scan_fail(s, DIAG_UNIT_MISSING, start, s->at,
              "the tolerance; write \xC2\xB1 %.*s %s%s%.*s%s", (int)n.len,
              n.start, apart->name, share ? " or \xC2\xB1 " : "",
              share ? (int)n.len : 0, n.start, share ? " %" : "");
    return false;
}

/* The SI size of a tolerance: a temperature's is a difference. */
static bool tolerance_size(struct scan *s, const struct number *n,
                           const struct unit *u, const struct reading *r,
                           size_t start, double *size) {
    if (n->value < 0) {
        scan_fail(s, DIAG_TOLERANCE_NEGATIVE, start, s->at, NULL);
        return false;
    }
    if (u == NULL && r->unit != NULL)
        return ask_for_unit(s, r, start);
    if (is_percent(u) && dim_of(r->unit).point) {
        scan_fail(s, DIAG_POINT_ARITHMETIC, start, s->at,
                  "a share of a temperature; write its tolerance in K");
        return false;
    }
    if (is_percent(u) && !is_percent(r->unit)) {
        *size = fabs(r->nominal) * n->value / 100;
        return true;
    }
    if (!dim_same(dim_of(u), dim_of(r->unit))) {
        char a[UNIT_TEXT], b[UNIT_TEXT];
        scan_fail(s, DIAG_TOLERANCE_UNIT, start, s->at, "%s on %s",
                  dim_name(dim_of(u), a), dim_name(dim_of(r->unit), b));
        return false;
    }
    *size = u == NULL ? n->value : n->value * u->factor;
    return true;
}

static bool read_tolerance(struct scan *s, struct reading *r) {
    scan_blanks(s);
    size_t start = s->at;
    struct number n;
    if (!scan_at_number(s)) {
        scan_fail(s, DIAG_EXPRESSION_FORM, start, s->at,
                  "a number belongs behind ±");
        return false;
    }
    if (!read_number(s, &n))
        return false;
    const struct unit *u = read_unit(s);
    double size;
    if (s->failed || !tolerance_size(s, &n, u, r, start, &size))
        return false;
    set_end(r, SPREAD_PLUS_MINUS, 1, &n, u == NULL ? r->unit : u);
    r->range = (struct ends){r->nominal - size, r->nominal + size};
    if (!is_possible(s, r))
        return false;
    r->range =
        (struct ends){round_snap(r->range.low), round_snap(r->range.high)};
    return true;
}

/* One end of a range; a missing unit is the other end's. */
static bool read_end(struct scan *s, struct number *n, const struct unit **u) {
    if (!scan_at_number(s)) {
        scan_fail(s, DIAG_EXPRESSION_FORM, s->at, s->at,
                  "a range needs a number at each end");
        return false;
    }
    if (!read_number(s, n))
        return false;
    *u = read_unit(s);
    return !s->failed;
}

static bool same_dimension(struct scan *s, const struct unit *a,
                           const struct unit *b, size_t start) {
    if (dim_equal(dim_of(a), dim_of(b)))
        return true;
    char x[UNIT_TEXT], y[UNIT_TEXT];
    scan_fail(s, DIAG_DIMENSION, start, s->at, "%s to %s",
              dim_name(dim_of(a), x), dim_name(dim_of(b), y));
    return false;
}

/* Decimals that show the middle: that of 13.2 and 14.5 needs one more. */
static int middle_decimals(const struct reading *r, const struct number *high) {
    int decimals = r->number.decimals;
    if (high->decimals > decimals)
        decimals = high->decimals;
    double middle =
        r->unit == NULL ? r->nominal : unit_from_si(r->unit, r->nominal);
    bool shown = round_snap(round_value(middle, decimals, ROUND_HALF_EVEN)) ==
                 round_snap(middle);
    return shown ? decimals : decimals + 1;
}

/* `28 A to 32 A`: nominal in the middle. */
static bool read_range(struct scan *s, struct reading *r) {
    struct number high;
    const struct unit *second;
    if (!read_end(s, &high, &second))
        return false;
    if (second == NULL)
        second = r->unit;
    if (r->unit == NULL)
        r->unit = second;
    if (!same_dimension(s, r->unit, second, r->start))
        return false;
    r->range = (struct ends){si_of(r->number.value, r->unit),
                             si_of(high.value, second)};
    if (r->range.low > r->range.high) {
        scan_fail(s, DIAG_RANGE_ORDER, r->start, s->at, NULL);
        return false;
    }
    r->nominal = r->range.low + (r->range.high - r->range.low) / 2;
    if (!is_possible(s, r))
        return false;
    r->nominal = round_snap(r->nominal);
    set_end(r, SPREAD_TO, 0, &r->number, r->unit);
    set_end(r, SPREAD_TO, 1, &high, second);
    r->number.decimals = middle_decimals(r, &high);
    r->number.fraction |= high.fraction;
    return true;
}

/* `13.8 V (13.2 V to 14.4 V)`. */
static bool read_ends(struct scan *s, struct reading *r) {
    struct number low, high;
    const struct unit *first, *second;
    if (!read_end(s, &low, &first))
        return false;
    if (!scan_take_word(s, "to")) {
        scan_fail(s, DIAG_EXPRESSION_FORM, r->start, s->at,
                  "a range in parentheses is written (LOW to HIGH)");
        return false;
    }
    if (!read_end(s, &high, &second))
        return false;
    if (!scan_take(s, ")")) {
        scan_fail(s, DIAG_EXPRESSION_FORM, r->start, s->at,
                  "the parenthesis is not closed");
        return false;
    }
    if (second == NULL)
        second = r->unit;
    if (first == NULL && second != r->unit) {
        scan_fail(s, DIAG_UNIT_MISSING, r->start, s->at,
                  "the low end could be in either unit");
        return false;
    }
    if (first == NULL)
        first = second;
    if (!same_dimension(s, r->unit, first, r->start) ||
        !same_dimension(s, r->unit, second, r->start))
        return false;
    r->range =
        (struct ends){si_of(low.value, first), si_of(high.value, second)};
    if (r->range.low > r->range.high) {
        scan_fail(s, DIAG_RANGE_ORDER, r->start, s->at, NULL);
        return false;
    }
    if (r->nominal < r->range.low || r->nominal > r->range.high) {
        scan_fail(s, DIAG_RANGE_NOMINAL, r->start, s->at, NULL);
        return false;
    }
    set_end(r, SPREAD_ENDS, 0, &low, first);
    set_end(r, SPREAD_ENDS, 1, &high, second);
    return true;
}

static struct quantity *root_at(struct quantity_maker *m,
                                const struct number *n, const struct unit *u,
                                double nominal, struct ends range) {
    struct quantity *q =
        quantity_root(m, ROOT_LITERAL, nominal, range, dim_of(u), u);
    q->decimals = n->fraction ? -1 : n->decimals;
    q->fraction = n->fraction;
    q->written = n->written;
    return q;
}

static const struct spread *spread_of(struct quantity_maker *m,
                                      const struct reading *r) {
    if (!r->spread)
        return NULL;
    const struct quantity *end[2] = {NULL, NULL};
    for (size_t i = r->form == SPREAD_PLUS_MINUS; i < 2; i++) {
        double si = si_of(r->end[i].value, r->end_unit[i]);
        end[i] =
            root_at(m, &r->end[i], r->end_unit[i], si, (struct ends){si, si});
    }
    struct spread *own = arena_alloc(m->arena, 1, sizeof *own);
    *own = (struct spread){r->form, end[0], end[1]};
    return own;
}

static struct quantity *root_of(struct scan *s, struct quantity_maker *m,
                                const struct reading *r, bool has_middle) {
    struct quantity *q = root_at(m, &r->number, r->unit, r->nominal, r->range);
    q->fraction = r->number.fraction && !has_middle;
    q->spread = spread_of(m, r);
    q->at = scan_span(s, r->start, s->at);
    return q;
}

struct quantity *literal_read(struct scan *s, struct quantity_maker *m) {
    scan_blanks(s);
    struct reading r = {.start = s->at};
    if (!read_number(s, &r.number))
        return NULL;
    r.unit = read_unit(s);
    if (s->failed)
        return NULL;
    r.nominal = si_of(r.number.value, r.unit);
    r.range = (struct ends){r.nominal, r.nominal};
    size_t before = s->at;
    bool ok = true, has_middle = scan_take_word(s, "to");
    if (has_middle)
        ok = read_range(s, &r);
    else if (scan_take(s, "\xC2\xB1") || scan_take(s, "+/-"))
        ok = read_tolerance(s, &r);
    else if (r.unit != NULL && scan_take(s, "("))
        ok = read_ends(s, &r);
    else
        s->at = before;
    return ok && is_possible(s, &r) ? root_of(s, m, &r, has_middle) : NULL;
}

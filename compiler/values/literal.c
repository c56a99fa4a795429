/* literal.c - numbers, units, tolerances and ranges as the trade writes them.
 */
#include "values/literal.h"

#include "base/arena.h"
#include "calc/rounding.h"

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

/* "5/16": the digits, a slash and digits follow at `from`, and then neither a
 * letter of a thread (1/2-20) nor another slash. */
static size_t fraction_length(const struct scan *s, size_t from) {
    size_t above = digits(s, from);
    if (above == 0 || ahead(s, from + above) != '/')
        return 0;
    size_t below = digits(s, from + above + 1);
    return below == 0 ? 0 : above + 1 + below;
}

static bool read_fraction(struct scan *s, double whole, double sign,
                          struct number *out, size_t start) {
    size_t above = digits(s, 0);
    double top = strtod(
        text_cstr(s->arena, text_part(s->text, s->at, s->at + above)), NULL);
    s->at += above + 1;
    size_t below = digits(s, 0);
    double bottom = strtod(
        text_cstr(s->arena, text_part(s->text, s->at, s->at + below)), NULL);
    s->at += below;
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

static bool read_number(struct scan *s, struct number *out) {
    *out = (struct number){0};
    scan_blanks(s);
    size_t start = s->at;
    double sign = 1;
    if (scan_take(s, "-") || scan_take(s, "\xE2\x88\x92"))
        sign = -1;
    size_t first = s->at;
    if (scan_peek(s) == '.') {
        scan_fail(s, DIAG_NUMBER_FORM, start, s->at + 1 + digits(s, 1),
                  "write a 0 before the point");
        return false;
    }
    if (fraction_length(s, 0) > 0) {
        bool ok = read_fraction(s, 0, sign, out, start);
        out->written = text_part(s->text, start, s->at);
        return ok;
    }
    s->at += digits(s, 0);
    if (refuse_comma(s, start))
        return false;
    if (ahead(s, 0) == '.' && is_digit(ahead(s, 1))) {
        out->decimals = (int)digits(s, 1);
        s->at += 1 + (size_t)out->decimals;
        if (refuse_comma(s, start))
            return false;
    } else if (ahead(s, 0) == ' ' && fraction_length(s, 1) > 0) {
        double whole =
            strtod(text_cstr(s->arena, text_part(s->text, first, s->at)), NULL);
        s->at++;
        bool ok = read_fraction(s, whole, sign, out, start);
        out->written = text_part(s->text, start, s->at);
        return ok;
    }
    out->value =
        sign *
        strtod(text_cstr(s->arena, text_part(s->text, first, s->at)), NULL);
    out->written = text_part(s->text, start, s->at);
    if (!isfinite(out->value) || s->at - first > 300) {
        scan_fail(s, DIAG_NUMBER_RANGE, start, s->at, NULL);
        return false;
    }
    return true;
}

/* Words that may follow a number and are no unit. */
static bool is_joint(struct text word) {
    static const char *const words[] = {"to",    "for",  "at", "from", "in",
                                        "range", "step", "or", "and",  "x"};
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

static void report_unit(struct scan *s, struct text word) {
    struct nearest near = nearest_to(word);
    const struct unit *u;
    for (size_t i = 0; (u = unit_at(i)) != NULL; i++)
        nearest_offer(&near, text_of(u->name));
    size_t end = s->at + word.len;
    if (near.best != NULL)
        scan_fail(s, DIAG_UNIT_UNKNOWN, s->at, end,
                  "'%.*s' (did you mean '%.*s'?)", (int)word.len, word.start,
                  (int)near.best_len, near.best);
    else
        scan_fail(s, DIAG_UNIT_UNKNOWN, s->at, end, "'%.*s'", (int)word.len,
                  word.start);
}

/* A product or quotient of units, made for this guide: V/m, N/mm2. */
static const struct unit *composed_unit(struct scan *s, struct text word) {
    struct unit *u = arena_alloc(s->arena, 1, sizeof *u);
    char *texts = arena_alloc(s->arena, 2, UNIT_TEXT);
    return unit_compose(word.start, word.len, u, texts, texts + UNIT_TEXT)
               ? u
               : NULL;
}

/* The unit behind a number, or NULL when there is none. */
static const struct unit *read_unit(struct scan *s) {
    size_t before = s->at;
    scan_blanks(s);
    struct text rest = text_part(s->text, s->at, s->text.len);
    struct text word = text_part(rest, 0, unit_word_length(rest));
    bool touching = s->at == before;
    if (word.len == 0 ||
        (!touching && is_joint(word) && !(text_is(word, "in")))) {
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
        report_unit(s, word);
    else
        s->at = before;
    return NULL;
}

static struct quantity *root_of(struct quantity_maker *m,
                                const struct number *n, const struct unit *u) {
    const struct dim none = {{0}, false};
    double si = u == NULL ? n->value : unit_to_si(u, n->value);
    struct quantity *q = quantity_exact(m, si, u == NULL ? none : u->dim, u);
    q->decimals = n->decimals;
    q->fraction = n->fraction;
    q->written = n->written;
    return q;
}

/* The SI size of a tolerance: a temperature's is a difference. */
static bool tolerance_size(struct scan *s, const struct number *n,
                           const struct unit *u, const struct quantity *q,
                           size_t start, double *size) {
    if (n->value < 0) {
        scan_fail(s, DIAG_TOLERANCE_NEGATIVE, start, s->at, NULL);
        return false;
    }
    if (u == NULL)
        u = q->unit;
    bool percent = u != NULL && text_is(text_of(u->label), "%");
    if (percent &&
        !(q->unit != NULL && text_is(text_of(q->unit->label), "%"))) {
        *size = fabs(q->nominal) * n->value / 100;
        return true;
    }
    const struct dim none = {{0}, false};
    struct dim dim = u == NULL ? none : u->dim;
    if (!dim_same(dim, q->dim)) {
        char a[64], b[64];
        scan_fail(s, DIAG_TOLERANCE_UNIT, start, s->at, "%s on %s",
                  dim_name(dim, a), dim_name(q->dim, b));
        return false;
    }
    *size = u == NULL ? n->value : n->value * u->factor;
    return true;
}

static bool add_tolerance(struct scan *s, struct quantity *q) {
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
    if (s->failed || !tolerance_size(s, &n, u, q, start, &size))
        return false;
    q->range = (struct ends){round_snap(q->nominal - size),
                             round_snap(q->nominal + size)};
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
    const struct dim none = {{0}, false};
    struct dim left = a == NULL ? none : a->dim;
    struct dim right = b == NULL ? none : b->dim;
    if (dim_equal(left, right))
        return true;
    char x[64], y[64];
    scan_fail(s, DIAG_DIMENSION, start, s->at, "%s to %s", dim_name(left, x),
              dim_name(right, y));
    return false;
}

static double si_of(const struct number *n, const struct unit *u) {
    return u == NULL ? n->value : unit_to_si(u, n->value);
}

/* `28 A to 32 A`: nominal in the middle. */
static struct quantity *range_to(struct scan *s, struct quantity_maker *m,
                                 struct number low, const struct unit *unit,
                                 size_t start) {
    struct number high;
    const struct unit *second;
    if (!read_end(s, &high, &second))
        return NULL;
    if (second == NULL)
        second = unit;
    if (unit == NULL)
        unit = second;
    if (!same_dimension(s, unit, second, start))
        return NULL;
    double from = si_of(&low, unit), to = si_of(&high, second);
    if (from > to) {
        scan_fail(s, DIAG_RANGE_ORDER, start, s->at, NULL);
        return NULL;
    }
    struct quantity *q = root_of(m, &low, unit);
    q->nominal = round_snap(from + (to - from) / 2);
    q->range = (struct ends){from, to};
    q->fraction = false;
    /* The middle of 13.2 and 14.5 needs one decimal more. */
    if (high.decimals > q->decimals)
        q->decimals = high.decimals;
    double middle = unit == NULL ? q->nominal : unit_from_si(unit, q->nominal);
    if (round_snap(round_value(middle, q->decimals, ROUND_HALF_EVEN)) !=
        round_snap(middle))
        q->decimals++;
    return q;
}

/* `13.8 V (13.2 V to 14.4 V)`. */
static bool add_ends(struct scan *s, struct quantity *q, size_t start) {
    struct number low, high;
    const struct unit *first, *second;
    if (!read_end(s, &low, &first))
        return false;
    if (!scan_take_word(s, "to")) {
        scan_fail(s, DIAG_EXPRESSION_FORM, start, s->at,
                  "a range in parentheses is written (LOW to HIGH)");
        return false;
    }
    if (!read_end(s, &high, &second))
        return false;
    if (!scan_take(s, ")")) {
        scan_fail(s, DIAG_EXPRESSION_FORM, start, s->at,
                  "the parenthesis is not closed");
        return false;
    }
    if (second == NULL)
        second = q->unit;
    if (first == NULL)
        first = second;
    if (!same_dimension(s, q->unit, first, start) ||
        !same_dimension(s, q->unit, second, start))
        return false;
    q->range = (struct ends){si_of(&low, first), si_of(&high, second)};
    if (q->range.low > q->range.high) {
        scan_fail(s, DIAG_RANGE_ORDER, start, s->at, NULL);
        return false;
    }
    if (q->nominal < q->range.low || q->nominal > q->range.high) {
        scan_fail(s, DIAG_RANGE_NOMINAL, start, s->at, NULL);
        return false;
    }
    return true;
}

struct quantity *literal_read(struct scan *s, struct quantity_maker *m) {
    scan_blanks(s);
    size_t start = s->at;
    struct number n;
    if (!read_number(s, &n))
        return NULL;
    const struct unit *unit = read_unit(s);
    if (s->failed)
        return NULL;
    struct quantity *q;
    if (scan_take_word(s, "to")) {
        q = range_to(s, m, n, unit, start);
    } else {
        q = root_of(m, &n, unit);
        size_t before = s->at;
        if (scan_take(s, "\xC2\xB1") || scan_take(s, "+/-")) {
            if (!add_tolerance(s, q))
                return NULL;
        } else if (unit != NULL && scan_take(s, "(")) {
            if (!add_ends(s, q, start))
                return NULL;
        } else {
            s->at = before;
        }
    }
    if (q == NULL)
        return NULL;
    q->at = scan_span(s, start, s->at);
    if (!isfinite(q->nominal) || !isfinite(q->range.low) ||
        !isfinite(q->range.high)) {
        scan_fail(s, DIAG_NUMBER_RANGE, start, s->at, NULL);
        return NULL;
    }
    return q;
}

/* operate.c - arithmetic on values: units checked, ranges finite, or a message.
 */
#include "values/operate.h"

#include "values/range.h"

#include <math.h>

static const struct value bad = {.type = VALUE_BAD};

static struct value of_quantity(struct quantity *q) {
    return (struct value){.type = VALUE_QUANTITY, .quantity = q, .at = q->at};
}

const char *operate_type_name(enum value_type t) {
    switch (t) {
    case VALUE_BAD:
    case VALUE_ABSENT:
        return "nothing";
    case VALUE_QUANTITY:
        return "a quantity";
    case VALUE_SIZE:
        return "a wire size";
    case VALUE_TEXT:
        return "a text";
    case VALUE_TRUTH:
        return "yes or no";
    case VALUE_LIMIT:
        return "a limit";
    }
    return "nothing";
}

static bool is_finite(struct ends e) {
    return isfinite(e.low) && isfinite(e.high);
}

/* Not a number in the nominal, or undefined somewhere over the ranges. The
 * search for the true ends is left to who prints them, where it can be. */
static struct value checked(struct expression *x, struct quantity *q,
                            size_t from) {
    q->at = scan_span(&x->scan, from, x->scan.at);
    if (isfinite(q->nominal) &&
        (is_finite(q->bounds->within) || is_finite(range_confine(q))))
        return of_quantity(q);
    scan_fail(&x->scan, DIAG_RESULT_NOT_FINITE, from, x->scan.at, NULL);
    return bad;
}

static bool holds_zero(struct ends e) {
    return e.low <= 0 && e.high >= 0;
}

/* The divisor's range has 0 in it, after a message. */
static bool may_be_zero(struct expression *x, const struct quantity *divisor,
                        size_t from) {
    if (!holds_zero(divisor->bounds->within) ||
        !holds_zero(range_confine(divisor)))
        return false;
    struct ends e = range_ends(divisor);
    scan_fail(&x->scan, DIAG_DIVISION_BY_ZERO, from, x->scan.at,
              e.low == e.high ? NULL : "the divisor's range has 0 in it");
    return true;
}

static bool both_quantities(struct expression *x, const struct value *left,
                            const struct value *right, size_t from,
                            const char *doing) {
    if (left->type == VALUE_BAD || right->type == VALUE_BAD)
        return false;
    const struct value *odd = left->type != VALUE_QUANTITY ? left : right;
    if (odd->type == VALUE_QUANTITY)
        return true;
    scan_fail(&x->scan, DIAG_VALUE_TYPE, from, x->scan.at, "%s %s", doing,
              operate_type_name(odd->type));
    return false;
}

void operate_note_origin(struct expression *x, const struct quantity *q) {
    const struct span here = scan_span(&x->scan, 0, x->scan.text.len);
    bool inside = q->at.src == here.src && q->at.start >= here.start &&
                  q->at.end <= here.end;
    char name[UNIT_TEXT];
    if (q->at.src != NULL && !inside)
        diag_note(x->scan.diags, q->at, "this is %s",
                  unit_measures_of(q->unit, q->dim, name));
}

static bool same_dimension(struct expression *x, const struct quantity *left,
                           const struct quantity *right, size_t from,
                           const char *doing) {
    if (dim_same(left->dim, right->dim))
        return true;
    char a[UNIT_TEXT], b[UNIT_TEXT];
    scan_fail(&x->scan, DIAG_DIMENSION, from, x->scan.at, "%s %s and %s", doing,
              dim_name(left->dim, a), dim_name(right->dim, b));
    operate_note_origin(x, left);
    operate_note_origin(x, right);
    return false;
}

/* A figure that stands in this expression itself. */
static bool is_written_here(const struct expression *x,
                            const struct quantity *q) {
    const struct span here = scan_span(&x->scan, 0, x->scan.text.len);
    return q->op == QUANTITY_ROOT && q->root == ROOT_LITERAL &&
           q->at.src != NULL && q->at.src == here.src &&
           q->at.start >= here.start && q->at.end <= here.end;
}

/* "4 A - 6 A", "40 - 210 N.m": nobody takes the larger figure off the smaller
 * one. True after a message. */
static bool refuse_range(struct expression *x, const struct quantity *left,
                         const struct quantity *right, size_t from) {
    bool bare = dim_none(left->dim) && left->unit == NULL;
    bool meant = dim_equal(left->dim, right->dim)
                     ? left->nominal < right->nominal
                     : bare;
    if (!meant || right->unit == NULL || !is_written_here(x, left) ||
        !is_written_here(x, right))
        return false;
    struct text low = place_text(left->at), high = place_text(right->at);
    scan_fail(&x->scan, DIAG_EXPRESSION_FORM, from, x->scan.at,
              "a range is written %.*s to %.*s", (int)low.len, low.start,
              (int)high.len, high.start);
    return true;
}

struct value operate_add(struct expression *x, enum quantity_op op,
                         struct value left, struct value right, size_t from) {
    const char *doing = op == QUANTITY_ADD ? "adding" : "subtracting";
    if (!both_quantities(x, &left, &right, from, doing) ||
        (op == QUANTITY_SUBTRACT &&
         refuse_range(x, left.quantity, right.quantity, from)) ||
        !same_dimension(x, left.quantity, right.quantity, from, doing))
        return bad;
    bool points = left.quantity->dim.point && right.quantity->dim.point;
    bool lost = right.quantity->dim.point && !left.quantity->dim.point;
    if ((points && op == QUANTITY_ADD) || (lost && op == QUANTITY_SUBTRACT)) {
        scan_fail(&x->scan, DIAG_POINT_ARITHMETIC, from, x->scan.at,
                  "%s temperatures; one of them must be a difference, in K",
                  doing);
        return bad;
    }
    struct quantity *q =
        quantity_binary(&x->values->maker, op, left.quantity, right.quantity);
    return checked(x, q, from);
}

struct value operate_multiply(struct expression *x, enum quantity_op op,
                              struct value left, struct value right,
                              size_t from) {
    bool divide = op == QUANTITY_DIVIDE;
    const char *doing = divide ? "dividing" : "multiplying";
    if (!both_quantities(x, &left, &right, from, doing))
        return bad;
    if (left.quantity->dim.point || right.quantity->dim.point) {
        scan_fail(&x->scan, DIAG_POINT_ARITHMETIC, from, x->scan.at,
                  "subtract another temperature first");
        return bad;
    }
    if (divide && may_be_zero(x, right.quantity, from))
        return bad;
    struct quantity *q =
        quantity_binary(&x->values->maker, op, left.quantity, right.quantity);
    return checked(x, q, from);
}

struct value operate_root(struct expression *x, struct value of, size_t from) {
    if (!both_quantities(x, &of, &of, from, "taking the root of"))
        return bad;
    if (of.quantity->bounds->within.low < 0 &&
        range_confine(of.quantity).low < 0) {
        scan_fail(&x->scan, DIAG_ROOT_NEGATIVE, from, x->scan.at, NULL);
        return bad;
    }
    struct dim dim;
    if (of.quantity->dim.point || !dim_power(of.quantity->dim, 1, 2, &dim)) {
        char name[UNIT_TEXT];
        scan_fail(&x->scan, DIAG_DIMENSION, from, x->scan.at,
                  "square root of %s", dim_name(of.quantity->dim, name));
        return bad;
    }
    return checked(x, quantity_power(&x->values->maker, of.quantity, 1, 2),
                   from);
}

struct value operate_power(struct expression *x, struct value base,
                           int exponent, size_t from) {
    if (!both_quantities(x, &base, &base, from, "raising"))
        return bad;
    struct dim dim;
    if (base.quantity->dim.point ||
        !dim_power(base.quantity->dim, exponent, 1, &dim)) {
        scan_fail(&x->scan, DIAG_POINT_ARITHMETIC, from, x->scan.at, NULL);
        return bad;
    }
    if (exponent < 0 && may_be_zero(x, base.quantity, from))
        return bad;
    return checked(
        x, quantity_power(&x->values->maker, base.quantity, exponent, 1), from);
}

struct value operate_abs(struct expression *x, struct value of, size_t from) {
    if (!both_quantities(x, &of, &of, from, "taking the amount of"))
        return bad;
    return checked(x, quantity_abs(&x->values->maker, of.quantity), from);
}

/* 40 degC is no rise by 40 K. */
static bool same_scale(struct expression *x, const struct quantity *left,
                       const struct quantity *right, size_t from) {
    if (left->dim.point == right->dim.point)
        return true;
    scan_fail(&x->scan, DIAG_POINT_ARITHMETIC, from, x->scan.at,
              "comparing a temperature with a difference, which is in K");
    return false;
}

bool operate_comparable(struct expression *x, const struct value *left,
                        const struct value *right, size_t from) {
    return both_quantities(x, left, right, from, "comparing") &&
           same_dimension(x, left->quantity, right->quantity, from,
                          "comparing") &&
           same_scale(x, left->quantity, right->quantity, from);
}

bool operate_is_quantity(struct expression *x, const struct value *value,
                         size_t from, const char *doing) {
    return both_quantities(x, value, value, from, doing);
}

struct value operate_extreme(struct expression *x, enum quantity_op op,
                             struct value left, struct value right,
                             size_t from) {
    if (!operate_comparable(x, &left, &right, from))
        return bad;
    return checked(
        x,
        quantity_binary(&x->values->maker, op, left.quantity, right.quantity),
        from);
}

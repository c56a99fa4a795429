/* setting_torque.c - settings of a bolted joint: a wrench, an angle in stages.
 */
#include "values/setting_torque.h"

#include "base/arena.h"
#include "base/diag.h"
#include "values/expression.h"
#include "values/misread.h"
#include "values/range.h"

static const struct value bad = {.type = VALUE_BAD};

/* `5 lbf·ft to 75 lbf·ft, step 1 lbf·ft`. */
struct value setting_wrench(struct values *v, const struct slot *s,
                            struct text t, size_t variant) {
    struct expression x = expression_over(v, s->evaluated, variant, t);
    struct value range = expression_sum(&x);
    if (!expression_fits(&x, &range, "N.m", "wrench"))
        return bad;
    if (!scan_take(&x.scan, ",") || !scan_take_word(&x.scan, "step")) {
        scan_fail(&x.scan, DIAG_SETTING_VALUE, 0, t.len,
                  "a wrench is a range and its step: 5 lbf.ft to 75 lbf.ft, "
                  "step 1 lbf.ft");
        return bad;
    }
    struct value step = expression_sum(&x);
    if (step.type == VALUE_QUANTITY && dim_none(step.quantity->dim)) {
        scan_fail(&x.scan, DIAG_UNIT_MISSING, 0, t.len,
                  "a wrench is a range and its step: 5 lbf.ft to 75 lbf.ft, "
                  "step 1 lbf.ft");
        return bad;
    }
    if (!expression_fits(&x, &step, "N.m", "step"))
        return bad;
    if (!scan_end(&x.scan) || step.quantity->nominal <= 0 ||
        range.quantity->range.low <= 0 || range.quantity->op != QUANTITY_ROOT) {
        scan_fail(&x.scan, DIAG_SETTING_VALUE, 0, t.len,
                  "range and step of a wrench are above 0");
        return bad;
    }
    range.with = step.quantity;
    range.joint = "step";
    return range;
}

static void add_stages(struct arena *a, const struct quantity *q,
                       const struct unit *unit, enum figure_form form,
                       struct buf *b) {
    if (q->op == QUANTITY_ADD) {
        add_stages(a, q->arg[0], unit, form, b);
        add_stages(a, q->arg[1], unit, form, b);
        return;
    }
    buf_printf(b, "%s%s", b->len > 0 ? ", then " : "",
               unit == NULL ? figure_of(a, q, form)
                            : figure_in(a, q, unit, form));
}

const char *setting_stages_print(struct arena *a, const struct quantity *sum,
                                 const struct unit *unit,
                                 enum figure_form form) {
    struct buf words = buf_in(a);
    add_stages(a, sum, unit, form, &words);
    return buf_cstr(&words);
}

static bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

/* "2 x 90 deg", as sheets have it: true after a message. */
static bool refuse_times(struct scan *s, struct text t) {
    for (size_t i = 0; i < t.len; i++) {
        struct text before = text_trim(text_part(t, 0, i));
        struct text behind = text_trim(text_part(t, i + 1, t.len));
        if ((t.start[i] != 'x' && t.start[i] != 'X') || before.len == 0 ||
            behind.len == 0 || !is_digit(before.start[before.len - 1]) ||
            !is_digit(behind.start[0]))
            continue;
        scan_fail(s, DIAG_EXPRESSION_FORM, i, i + 1,
                  "at '%c'; write each stage: 90 deg, then 90 deg", t.start[i]);
        return true;
    }
    return false;
}

/* `90 deg, then 90 deg`; the comma or the word may be left out. */
struct value setting_stages(struct values *v, const struct slot *s,
                            struct text t, size_t variant) {
    struct expression x = expression_over(v, s->evaluated, variant, t);
    struct value sum = {.type = VALUE_ABSENT};
    bool comma, then;
    if (refuse_times(&x.scan, t))
        return bad;
    do {
        struct value stage = expression_sum(&x);
        if (!expression_fits(&x, &stage, s->setting->unit, s->setting->name))
            return bad;
        if (!(range_ends(stage.quantity).low > 0)) {
            diag_add(v->c->diags, DIAG_SETTING_VALUE, stage.at,
                     "each stage of %s is above 0", s->setting->name);
            return bad;
        }
        if (sum.type == VALUE_QUANTITY)
            sum.quantity = quantity_binary(&v->maker, QUANTITY_ADD,
                                           sum.quantity, stage.quantity);
        else
            sum = stage;
        comma = scan_take(&x.scan, ",");
        then = scan_take_word(&x.scan, "then");
    } while (comma || then);
    if (!scan_end(&x.scan)) {
        misread_word(&x.scan, text_part(t, x.scan.at, t.len));
        return bad;
    }
    sum.staged = true;
    sum.at = place_of(s->evaluated->src, text_trim(t));
    return sum;
}

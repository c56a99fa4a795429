/* torque_prevailing.c - the drag of a locking nut in a `torque` block. */
#include "values/torque_prevailing.h"

#include "base/arena.h"
#include "base/diag.h"
#include "calc/rounding.h"
#include "values/range.h"

bool torque_prevailing_read(struct values *v, const struct block *b,
                            size_t variant, struct torque_drag *out) {
    const struct value *drag = block_setting(v, b, "prevailing", variant);
    *out = (struct torque_drag){0};
    if (drag->type != VALUE_QUANTITY ||
        block_is_bad(v, b, "prevailing rule", variant))
        return true;
    struct text name = block_text(v, b, "prevailing rule", variant);
    if (name.len == 0 || !prevailing_find(name.start, name.len, &out->rule)) {
        diag_add(v->c->diags, DIAG_SETTING_MISSING, b->at,
                 "torque %.*s says no prevailing rule; the trade knows three: "
                 "always, over a third, included",
                 (int)b->name.len, b->name.start);
        return false;
    }
    out->drag = drag->quantity;
    if (out->rule != PREVAILING_INCLUDED ||
        block_setting(v, b, "figure", variant)->type == VALUE_QUANTITY)
        return true;
    diag_add(v->c->diags, DIAG_SETTING_VALUE,
             block_place(v, b, "prevailing rule"),
             "included: that is said of a maker's figure; a torque that is "
             "worked out has no prevailing torque in it: write always");
    return false;
}

/* The usual one of the nuts: the wrench has one setting for all of them. */
static const struct quantity *usual_of(struct values *v,
                                       const struct quantity *drag) {
    struct ends e = range_ends(drag);
    if (e.low == e.high)
        return drag;
    struct quantity *q =
        quantity_exact(&v->maker, drag->nominal, drag->dim, figure_unit(drag));
    bool middle = round_snap(2 * drag->nominal) == round_snap(e.low + e.high);
    q->name = text_of(middle ? "prevailing torque, middle of its range"
                             : "prevailing torque, its usual figure");
    return q;
}

const struct quantity *torque_prevailing_spare(struct values *v,
                                               const struct torque_drag *d) {
    double newton_metre =
        d->drag == NULL ? 0 : d->drag->nominal - range_ends(d->drag).low;
    if (!(newton_metre > 0))
        return NULL;
    return quantity_exact(&v->maker, newton_metre, d->drag->dim,
                          figure_unit(d->drag));
}

struct quantity *torque_prevailing_shown(struct values *v,
                                         const struct block *b, size_t variant,
                                         const struct torque_drag *d,
                                         struct quantity *torque) {
    if (d->drag == NULL)
        return torque;
    const struct quantity *of[] = {torque, usual_of(v, d->drag)};
    struct quantity *q = quantity_call(
        &v->maker,
        prevailing_calculation(d->rule, torque->nominal, d->drag->nominal),
        NULL, of);
    q->unit = torque->unit;
    double most = range_ends(d->drag).high, least = range_ends(q).low;
    if (round_snap(most) >= round_snap(least)) {
        struct arena *a = v->c->arena;
        bool in_it = d->rule == PREVAILING_INCLUDED;
        diag_add(v->c->diags, DIAG_SETTING_VALUE,
                 block_place(v, b, "prevailing"),
                 "%s of prevailing torque in %s %s leave nothing that clamps: "
                 "check both against the maker's sheet",
                 figure_of(a, d->drag, FIGURE_HIGH),
                 in_it ? "a figure of" : "a wrench setting of",
                 figure_of(a, in_it ? torque : q, FIGURE_LOW));
        return NULL;
    }
    block_working(v, b, variant, "torque with prevailing torque", q);
    return q;
}

const struct quantity *torque_prevailing_clamps(struct values *v,
                                                const struct block *b,
                                                size_t variant,
                                                const struct torque_drag *d,
                                                const struct quantity *shown) {
    if (d->drag == NULL)
        return shown;
    const struct quantity *of[] = {shown, d->drag};
    struct quantity *q =
        quantity_call(&v->maker, clamping_calculation(), NULL, of);
    q->unit = shown->unit;
    block_working(v, b, variant, "torque that clamps", q);
    return q;
}

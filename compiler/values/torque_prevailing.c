/* torque_prevailing.c - the drag of a locking nut in a `torque` block. */
#include "values/torque_prevailing.h"

#include "base/arena.h"
#include "base/diag.h"
#include "values/range.h"

/* What the figure has in it must leave something to clamp with. */
static bool leaves_torque(struct values *v, const struct block *b,
                          size_t variant, const struct quantity *torque,
                          const struct torque_drag *d) {
    if (d->rule != PREVAILING_INCLUDED)
        return true;
    struct span at = block_place(v, b, "prevailing");
    if (block_setting(v, b, "figure", variant)->type != VALUE_QUANTITY) {
        diag_add(v->c->diags, DIAG_SETTING_VALUE,
                 block_place(v, b, "prevailing rule"),
                 "included: that is said of a maker's figure; a torque that is "
                 "worked out has no prevailing torque in it: write always");
        return false;
    }
    struct arena *a = v->c->arena;
    double most = range_ends(d->drag).high, least = range_ends(torque).low;
    if (round_snap(most) < round_snap(least))
        return true;
    diag_add(v->c->diags, DIAG_SETTING_VALUE, at,
             "%s of prevailing torque in a figure of %s leave nothing that "
             "clamps: check both against the maker's sheet",
             figure_of(a, d->drag, FIGURE_HIGH),
             figure_of(a, torque, FIGURE_LOW));
    return false;
}

bool torque_prevailing_read(struct values *v, const struct block *b,
                            size_t variant, const struct quantity *torque,
                            struct torque_drag *out) {
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
    return leaves_torque(v, b, variant, torque, out);
}

struct quantity *torque_prevailing_shown(struct values *v,
                                         const struct block *b, size_t variant,
                                         const struct torque_drag *d,
                                         struct quantity *torque) {
    if (d->drag == NULL)
        return torque;
    const struct quantity *of[] = {torque, d->drag};
    struct quantity *q =
        quantity_call(&v->maker, prevailing_calculation(d->rule), NULL, of);
    q->unit = torque->unit;
    block_working(v, b, variant, "torque with prevailing torque", q);
    return q;
}

const struct quantity *torque_prevailing_clamps(struct values *v,
                                                const struct block *b,
                                                size_t variant,
                                                const struct torque_drag *d,
                                                const struct quantity *torque) {
    const struct calculation *c =
        d->drag == NULL ? NULL : clamping_calculation(d->rule);
    if (c == NULL)
        return torque;
    const struct quantity *of[] = {torque, d->drag};
    struct quantity *q = quantity_call(&v->maker, c, NULL, of);
    q->unit = torque->unit;
    block_working(v, b, variant, "torque that clamps", q);
    return q;
}

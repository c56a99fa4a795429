/* margin.c - what is left between a figure and its limit, in words. */
#include "checks/margin.h"

#include "base/arena.h"
#include "values/figure.h"

#include <math.h>

#define NBSP "\xC2\xA0"

const struct unit *margin_unit(const struct requirement *r, int *decimals) {
    const struct unit *u = figure_unit(r->left);
    const struct unit *limit_unit = figure_unit(r->right);
    if (r->left->decimals < 0 && limit_unit != NULL && r->right->decimals >= 0)
        u = limit_unit;
    *decimals = figure_decimals(r->left, u);
    /* A limit as written needs its own digits; a computed one does not, nor one
     * beside an estimate. */
    if (r->right->decimals > *decimals && u == limit_unit &&
        r->left->significant == 0)
        *decimals = r->right->decimals;
    return u;
}

/* Of the sides as they are printed, so that the reader's subtraction agrees. */
static const char *degrees_left(struct arena *a, const struct requirement *r,
                                const struct requirement_worst *w) {
    bool turned = requirement_turned(r);
    double value = w->value, limit = w->limit;
    if (!w->together) {
        value = figure_shown(r->left, value, turned ? ROUND_DOWN : ROUND_UP);
        limit = figure_shown(r->right, limit, turned ? ROUND_UP : ROUND_DOWN);
    }
    int decimals;
    const struct unit *u = margin_unit(r, &decimals);
    double gap =
        fabs(round_value(unit_from_si(u, limit), decimals, ROUND_HALF_EVEN) -
             round_value(unit_from_si(u, value), decimals, ROUND_HALF_EVEN));
    return arena_printf(a, "%.*f" NBSP "%s", decimals < 0 ? 0 : decimals, gap,
                        u->label);
}

const char *margin_text(struct arena *a, const struct requirement *r,
                        const struct requirement_worst *w, double share) {
    share = fabs(share);
    if (r->left->dim.point)
        return degrees_left(a, r, w);
    if (share <= 10)
        return arena_printf(a, "%.0f" NBSP "%%", 100 * share);
    return share <= 1000 ? arena_printf(a, "%.0f times the limit", share)
                         : "over 1000 times the limit";
}

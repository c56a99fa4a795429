/* drop_limit.c - how much of its supply's voltage a run may lose. */
#include "values/drop_limit.h"

#include "base/arena.h"
#include "calc/rounding.h"
#include "values/range.h"

#define SAFETY_SHARE 0.03
#define USUAL_SOURCE                                                           \
    "none is stated: 3 % where safety hangs on the load, else 10 %: common "   \
    "practice (ABYC E-11, from memory)"

struct drop_limit drop_limit_stated(struct values *v, const struct block *b,
                                    size_t variant) {
    const struct value *stated = block_setting(v, b, "drop limit", variant);
    if (stated->type != VALUE_QUANTITY)
        return (struct drop_limit){.volt = NULL};
    if (!dim_none(stated->quantity->dim))
        return (struct drop_limit){.volt = stated->quantity};
    return (struct drop_limit){.share = stated->quantity, .of = stated->with};
}

/* Silence is not safe: a wire may be warm enough and still leave its load
 * nothing. */
struct drop_limit drop_limit_usual(struct values *v, const struct block *load,
                                   size_t variant) {
    bool safety =
        load != NULL && block_text(v, load, "serves", variant).len > 0;
    const struct unit *percent = unit_find("%", 1);
    return (struct drop_limit){
        .share =
            quantity_exact(&v->maker, safety ? SAFETY_SHARE : DROP_LIMIT_USUAL,
                           percent->dim, percent)};
}

bool drop_limit_is_known(const struct drop_limit *limit) {
    return limit->volt != NULL || limit->share != NULL;
}

bool drop_limit_is_odd(const struct drop_limit *limit, double volt) {
    const struct quantity *stated =
        limit->volt != NULL ? limit->volt : limit->share;
    if (stated == NULL || stated->note.len > 0)
        return false;
    double share =
        limit->share != NULL ? stated->nominal : stated->nominal / volt;
    return round_snap(share) > DROP_LIMIT_USUAL;
}

const char *drop_limit_odd(struct arena *a, const struct drop_limit *limit,
                           const struct quantity *supply) {
    return arena_printf(
        a, "%s may be lost of %s, which is more than %.0f\xC2\xA0%%",
        figure_of(a, limit->volt != NULL ? limit->volt : limit->share,
                  FIGURE_PLAIN),
        figure_of(a, supply, FIGURE_PLAIN), 100 * DROP_LIMIT_USUAL);
}

const struct quantity *drop_limit_volt(struct values *v,
                                       const struct drop_limit *limit,
                                       const struct quantity *supply) {
    if (limit->share == NULL)
        return limit->volt;
    struct quantity *q =
        quantity_binary(&v->maker, QUANTITY_MULTIPLY, limit->share,
                        limit->of != NULL ? limit->of : supply);
    q->unit = unit_find("V", 1);
    q->name = text_of("drop limit");
    return q;
}

const char *drop_limit_assume(struct values *v, const struct block *b,
                              size_t variant, const char *what,
                              const struct drop_limit *usual) {
    block_assume(v, b, variant, what,
                 arena_printf(v->c->arena, "%.0f\xC2\xA0%% of the supply",
                              100 * usual->share->nominal),
                 USUAL_SOURCE);
    return USUAL_SOURCE;
}

/* torque_holding.c - what a joint that holds the vehicle together states. */
#include "values/torque_holding.h"

#include "base/arena.h"

/* What lets go on the road is tightened by its maker's figure, not by ours. */
static void require_figure(struct values *v, const struct block *b,
                           size_t variant, struct text joint) {
    block_require(
        v, (struct requirement){
               .block = b,
               .variant = variant,
               .rule = "H26",
               .what = "torque of a joint that holds the vehicle together",
               .trouble = arena_printf(v->c->arena,
                                       "a %.*s joint has no maker's figure",
                                       (int)joint.len, joint.start),
               .source = "FAA AC 43.13-1B, 7-40",
               .cure = "write figure: with its source",
               .at = block_place(v, b, "joint")});
}

/* Paint and dirt between wheel and hub give way on the first miles, and with
 * them the stretch of the studs. */
static void ask_again(struct values *v, const struct block *b, size_t variant) {
    block_require(v,
                  (struct requirement){
                      .block = b,
                      .variant = variant,
                      .rule = "re-check",
                      .what = "when the wheel is tightened again",
                      .trouble = "a wheel settles on its first miles, and "
                                 "nothing says when its nuts are tightened "
                                 "again",
                      .source = "common practice, no source: 25 to 100 miles",
                      .cure = "write re-check: 50 miles, as the maker has it",
                      .at = block_place(v, b, "joint"),
                      .flag = true});
}

void torque_holding_require(struct values *v, const struct block *b,
                            size_t variant) {
    struct text joint = block_text(v, b, "joint", variant);
    if (joint.len == 0 || text_is(joint, "electrical") ||
        text_is(joint, "other"))
        return;
    /* One that is BAD is stated. */
    if (block_setting(v, b, "figure", variant)->type == VALUE_ABSENT)
        require_figure(v, b, variant, joint);
    if (text_is(joint, "wheel") &&
        block_setting(v, b, "re-check", variant)->type == VALUE_ABSENT)
        ask_again(v, b, variant);
}

/* torque_angle.c - a bolt that is turned on by an angle once it has its torque.
 */
#include "values/torque_angle.h"

#include "base/arena.h"
#include "base/diag.h"
#include "calc/rounding.h"
#include "values/range.h"

static bool turns_on(struct text way) {
    return text_is(way, "torque and angle") || text_is(way, "turn of nut");
}

static bool refuse(struct values *v, struct span at, const char *why) {
    diag_add(v->c->diags, DIAG_SETTING_VALUE, at, "%s", why);
    return false;
}

static void ask_for_angle(struct values *v, const struct block *b,
                          size_t variant) {
    block_require(v, (struct requirement){
                         .block = b,
                         .variant = variant,
                         .rule = "torque",
                         .what = "angle behind the torque",
                         .trouble = "the figure is the first stage only, and "
                                    "the angle is not written",
                         .source = "common practice, no source",
                         .cure = "write angle: 90 deg, as the maker's sheet "
                                 "has it",
                         .at = block_place(v, b, "tightened"),
                         .flag = true});
}

/* Stretched past its yield point a bolt is longer and harder than it was. */
static void ask_for_renewal(struct values *v, const struct block *b,
                            size_t variant) {
    if (block_setting(v, b, "renew", variant)->type != VALUE_ABSENT)
        return;
    block_require(v, (struct requirement){
                         .block = b,
                         .variant = variant,
                         .rule = "renew",
                         .what = "bolt turned by an angle",
                         .trouble = "the angle may stretch it past its yield "
                                    "point, and nothing says whether it is "
                                    "used again",
                         .source = "common practice, no source",
                         .cure = "write renew: yes, or renew: no where its "
                                 "maker lets it be used again",
                         .at = block_place(v, b,
                                           blocks_entry(v, b, "angle") == NULL
                                               ? "tightened"
                                               : "angle"),
                         .flag = true});
}

bool torque_angle_read(struct values *v, const struct block *b, size_t variant,
                       struct torque_angle *out) {
    const struct value *angle = block_setting(v, b, "angle", variant);
    struct text way = block_text(v, b, "tightened", variant);
    bool written = angle->type == VALUE_QUANTITY;
    *out = (struct torque_angle){0};
    if (angle->type == VALUE_BAD)
        return false;
    if (!written && !turns_on(way))
        return true;
    if (written && way.len > 0 && !turns_on(way))
        return refuse(v, angle->at,
                      "an angle belongs to tightened: torque and angle, or "
                      "turn of nut");
    enum value_type figure = block_setting(v, b, "figure", variant)->type;
    if (figure == VALUE_BAD)
        return false;
    if (figure != VALUE_QUANTITY)
        return refuse(v, written ? angle->at : block_place(v, b, "tightened"),
                      "torque and angle belong together, and only the bolt's "
                      "maker knows them: write figure: with its source, the "
                      "torque before the turn, and angle:");
    struct ends e = written ? range_ends(angle->quantity) : (struct ends){0};
    if (written && !(e.low > 0 && round_snap(e.high) <= 1))
        return refuse(v, angle->at,
                      "the angle is above 0 deg and at most 360 deg, all "
                      "stages together");
    out->follows = true;
    out->angle = written ? angle : NULL;
    if (!written)
        ask_for_angle(v, b, variant);
    ask_for_renewal(v, b, variant);
    return true;
}

struct value torque_angle_behind(const struct torque_angle *t,
                                 struct quantity *torque) {
    struct value value = {.type = VALUE_QUANTITY, .quantity = torque};
    if (t->angle != NULL) {
        value.with = t->angle->quantity;
        value.joint = "then";
    }
    return value;
}

struct value torque_angle_before(struct values *v, const struct quantity *q) {
    struct arena *a = v->c->arena;
    return (struct value){
        .type = VALUE_TEXT,
        .text = text_of(arena_printf(a, "%s before the angle",
                                     figure_both(a, q, FIGURE_RANGE)))};
}

const struct quantity *torque_angle_strength(struct values *v,
                                             const struct block *b,
                                             size_t variant,
                                             const struct torque_joint *joint) {
    if (joint->grade == NULL)
        return NULL;
    static const struct {
        enum torque_result result;
        const char *what;
    } loads[] = {{YIELD_LOAD, "load that the bolt yields at"},
                 {TENSILE_LOAD, "load that the bolt breaks at"}};
    double newton[2];
    for (size_t i = 0; i < 2; i++) {
        struct quantity *load = quantity_call(
            &v->maker, torque_calculation(loads[i].result), joint, NULL);
        load->name = text_of(loads[i].what);
        load->unit = unit_find("kN", 2);
        block_working(v, b, variant, loads[i].what, load);
        newton[i] = load->nominal;
    }
    static const char source[] =
        "from memory: VDI 2230, tightening past the yield point";
    block_assume(v, b, variant, "clamping force after the angle",
                 "what the bolt bears itself, from yielding to breaking",
                 source);
    return block_table(v, newton[0], (struct ends){newton[0], newton[1]}, "kN",
                       "clamping force after the angle", source);
}

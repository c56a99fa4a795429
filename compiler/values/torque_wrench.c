/* torque_wrench.c - what the wrench of a `torque` block is set to. */
#include "values/torque_wrench.h"

#include "base/arena.h"
#include "base/diag.h"
#include "calc/rounding.h"
#include "calc/torque.h"
#include "values/model.h"
#include "values/range.h"
#include "values/torque_angle.h"

#include <math.h>

enum { LEAST_MARK = 3 }; /* decimals */

struct quantity *torque_wrench_shows(struct values *v, const struct block *b,
                                     size_t variant, struct quantity *torque) {
    const struct value *extension = block_setting(v, b, "extension", variant);
    const struct value *length = block_setting(v, b, "wrench length", variant);
    const struct value *angle = block_setting(v, b, "extension angle", variant);
    if (extension->type != VALUE_QUANTITY || length->type == VALUE_BAD)
        return torque;
    if (length->type != VALUE_QUANTITY) {
        diag_add(v->c->diags, DIAG_SETTING_MISSING, extension->at,
                 "an extension needs wrench length: from the drive to the "
                 "middle of the grip");
        return NULL;
    }
    const struct unit *turn = unit_find("deg", 3);
    const struct quantity *of[] = {
        torque, length->quantity, extension->quantity,
        angle->type == VALUE_QUANTITY
            ? angle->quantity
            : quantity_exact(&v->maker, 0, turn->dim, turn)};
    struct quantity *q = quantity_call(
        &v->maker, extension_calculation(EXTENSION_SETTING), NULL, of);
    if (isnan(q->nominal)) {
        diag_add(v->c->diags, DIAG_SETTING_VALUE, extension->at,
                 "at this angle the extension takes all leverage away");
        return NULL;
    }
    q->unit = torque->unit;
    block_working(v, b, variant, "torque shown by the wrench", q);
    return q;
}

/* A step that leads away from the torque: out of the maker's own range, or
 * further than a wrench may err. NULL: it does not. */
static const char *led_away(struct values *v, const struct quantity *torque,
                            const struct quantity *setting) {
    struct ends e = range_ends(torque);
    double off = fabs(setting->nominal - torque->nominal);
    bool outside = round_snap(setting->nominal) < round_snap(e.low) ||
                   round_snap(setting->nominal) > round_snap(e.high);
    const char *shown = figure_of(v->c->arena, setting, FIGURE_PLAIN);
    if (e.low < e.high && outside)
        return arena_printf(v->c->arena, "%s, the nearest step, is outside %s",
                            shown,
                            figure_of(v->c->arena, torque, FIGURE_RANGE));
    return off > 0.1 * torque->nominal
               ? arena_printf(v->c->arena,
                              "%s, the nearest step, is more than a tenth off "
                              "%s",
                              shown,
                              figure_of(v->c->arena, torque, FIGURE_PLAIN))
               : NULL;
}

static void require_setting(struct values *v, const struct block *b,
                            size_t variant, const struct quantity *torque,
                            const struct wrench *w,
                            const struct quantity *setting) {
    struct wrench_setting s = wrench_set(w, setting->nominal);
    const char *shown = figure_of(v->c->arena, setting, FIGURE_PLAIN);
    struct requirement r = {.rule = "wrench", .what = "setting of the wrench"};
    const char *away = led_away(v, torque, setting);
    if (!s.in_range) {
        r.trouble = arena_printf(v->c->arena,
                                 "%s is outside the wrench's range", shown);
        r.cure = "another wrench";
    } else if (away != NULL) {
        r.trouble = away;
        r.source = "common practice, no source";
        r.cure = "a wrench with a finer step";
    } else if (!s.step_fine) {
        r.trouble = arena_printf(
            v->c->arena, "the wrench's step is more than a tenth of %s", shown);
        r.source = "ISO 6789";
        r.cure = "a wrench with a finer step";
        r.flag = true;
    } else if (!s.checked) {
        r.trouble = arena_printf(v->c->arena,
                                 "%s is below a fifth of the wrench's largest "
                                 "setting, where it is not calibrated",
                                 shown);
        r.source = "ISO 6789";
        r.cure = "a smaller wrench";
        r.flag = true;
    } else {
        return;
    }
    r.block = b;
    r.variant = variant;
    r.at = block_place(v, b, "wrench");
    block_require(v, r);
}

void torque_wrench_set(struct values *v, const struct block *b, size_t variant,
                       const struct quantity *torque,
                       const struct torque_angle *angle) {
    const struct value *tool = block_setting(v, b, "wrench", variant);
    if (tool->type != VALUE_QUANTITY)
        return;
    struct wrench w = {tool->quantity->range.low, tool->quantity->range.high,
                       tool->with->nominal};
    const struct unit *u = figure_unit(tool->with);
    /* A torque that was worked out is the most that the joint bears: the step
     * below it. Steps are counted in the tool's own unit, from the low end of
     * its scale. */
    bool stated = block_setting(v, b, "figure", variant)->type != VALUE_ABSENT;
    double step = unit_from_si(u, w.step);
    double from = round_snap(unit_from_si(u, w.from));
    double shown =
        round_step_from(round_snap(unit_from_si(u, torque->nominal)), step,
                        from, stated ? ROUND_HALF_EVEN : ROUND_DOWN);
    struct quantity *setting =
        quantity_exact(&v->maker, unit_to_si(u, shown), u->dim, u);
    setting->root = ROOT_DECISION;
    setting->decimals = tool->with->decimals;
    while (setting->decimals < LEAST_MARK &&
           round_value(shown, setting->decimals, ROUND_HALF_EVEN) != shown)
        setting->decimals++; /* 2.5 to 25 in steps of 1 */
    setting->name = text_of("setting");
    struct value shown_there = torque_angle_behind(angle, setting);
    shown_there.decision = true;
    block_field(v, b, "setting", variant, shown_there);
    require_setting(v, b, variant, torque, &w, setting);
}

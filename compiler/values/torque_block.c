/* torque_block.c - a `torque` block: the maker's figure, or one from the
 * thread, its condition and a target; what the wrench is set to. */
#include "base/arena.h"
#include "base/diag.h"
#include "calc/torque.h"
#include "source/suggest.h"
#include "values/joint.h"
#include "values/model.h"
#include "values/range.h"
#include "values/spelling.h"
#include "values/tapping.h"
#include "values/thread_word.h"
#include "values/torque_angle.h"
#include "values/torque_holding.h"
#include "values/torque_order.h"
#include "values/torque_prevailing.h"
#include "values/torque_unlisted.h"
#include "values/torque_words.h"
#include "values/torque_wrench.h"

#include <math.h>
#include <string.h>

struct torque_inputs {
    const struct block *block;
    size_t variant;
    bool has_thread, has_grade;
    const struct grade *named; /* also where it is not made in this diameter */
    const struct tapping_screw *screw; /* in place of the thread, or NULL */
    bool bearing_known; /* a hexagon head of this thread is in the table */
    struct torque_joint *joint;
    const struct nut_factor
        *factor; /* of the condition; NULL: not in the table */
    struct quantity *figure;
    struct text condition;
    struct torque_angle angle;
    struct torque_drag drag;
};

static void mistake(struct values *v, const struct torque_inputs *t,
                    const char *setting, const char *why) {
    struct text value = block_text(v, t->block, setting, t->variant);
    diag_add(v->c->diags, DIAG_SETTING_VALUE, block_place(v, t->block, setting),
             "%s '%.*s'%s: %s", setting, (int)value.len, value.start,
             suggest(v->c->arena, value, (struct text){0}), why);
}

static bool read_thread(struct values *v, struct torque_inputs *t) {
    struct text name = block_text(v, t->block, "thread", t->variant);
    if (name.len == 0)
        return true;
    switch (thread_read(name.start, name.len, &t->joint->thread)) {
    case THREAD_FOUND:
        t->has_thread = true;
        t->joint->bearing =
            torque_bearing(&t->joint->thread, &t->bearing_known);
        return true;
    case THREAD_UNREADABLE:
        t->screw = tapping_screw_find(name.start, name.len);
        if (t->screw != NULL)
            return true;
        mistake(v, t, "thread", thread_word_cure(v->c->arena, name));
        break;
    case THREAD_PITCH_MISSING:
        mistake(v, t, "thread", "coarse and fine exist: write the pitch");
        break;
    case THREAD_UNKNOWN:
        mistake(v, t, "thread", "no standard has this pitch at this diameter");
        break;
    case THREAD_SERIES_WRONG:
        mistake(v, t, "thread", "this pitch belongs to another series");
        break;
    }
    return false;
}

/* A grade belongs to its threads: an "8" on a metric bolt is an 8.8 of 0.7
 * times the strength of SAE 8. Stainless classes go on both. Lines on heads:
 * from memory, SAE J429. */
static bool grade_fits(struct values *v, const struct torque_inputs *t,
                       const struct grade *g) {
    bool unified = t->joint->thread.unified;
    if (g->stainless || g->metric != unified)
        return true;
    if (!unified) {
        mistake(v, t, "grade",
                "that grade is of inch bolts; write what stands on the head of "
                "a metric one: 8.8, 10.9");
        return false;
    }
    block_require(v, (struct requirement){
                         .block = t->block,
                         .variant = t->variant,
                         .rule = "torque",
                         .what = "grade of the bolt",
                         .trouble = arena_printf(
                             v->c->arena,
                             "class %s is of metric bolts, and %s is an inch "
                             "thread",
                             g->name, t->joint->thread.name),
                         .source = g->source,
                         .cure = "write the grade by the lines on its head: "
                                 "SAE 5 has three, SAE 8 six; or an override "
                                 "where the maker names the class",
                         .at = block_place(v, t->block, "grade"),
                         .flag = true});
    return true;
}

static bool read_grade(struct values *v, struct torque_inputs *t) {
    struct text name = block_text(v, t->block, "grade", t->variant);
    if (name.len == 0 || !t->has_thread)
        return true;
    enum grade_found found = grade_find(
        name.start, name.len, t->joint->thread.diameter, &t->joint->grade);
    t->named = t->joint->grade;
    if (found != GRADE_UNREADABLE && !grade_fits(v, t, t->named))
        return false;
    switch (found) {
    case GRADE_FOUND:
        t->has_grade = true;
        return true;
    case GRADE_UNREADABLE:
        mistake(v, t, "grade",
                torque_words_grades(v, t->joint->thread.unified));
        break;
    case GRADE_NO_SIZE:
        t->joint->grade = NULL;
        if (block_setting(v, t->block, "figure", t->variant)->type ==
            VALUE_QUANTITY)
            return true; /* its maker knows it */
        mistake(v, t, "grade", "no table has its strength in this diameter");
        break;
    }
    return false;
}

static const char *condition_at(size_t index) {
    const struct nut_factor *k = nut_factor_at(index);
    return k == NULL ? NULL : k->condition;
}

static bool read_condition(struct values *v, struct torque_inputs *t) {
    t->condition = block_text(v, t->block, "condition", t->variant);
    if (t->screw != NULL && t->condition.len == 0)
        return true; /* it cuts its own thread */
    if (t->condition.len == 0) {
        diag_add(v->c->diags, DIAG_TORQUE_BARE, t->block->at,
                 "torque %.*s says no thread condition; write condition: "
                 "clean, dry (or what the maker's figure is for)",
                 (int)t->block->name.len, t->block->name.start);
        return false;
    }
    t->factor = nut_factor_find(t->condition.start, t->condition.len);
    return spelling_check(v, block_place(v, t->block, "condition"),
                          t->condition, condition_at);
}

static bool read_inputs(struct values *v, const struct block *b, size_t variant,
                        struct torque_inputs *t) {
    *t = (struct torque_inputs){.block = b, .variant = variant};
    t->joint = arena_alloc(v->c->arena, 1, sizeof *t->joint);
    bool ok = read_thread(v, t);
    ok = read_grade(v, t) && ok;
    ok = read_condition(v, t) && ok;
    ok = torque_order_check(v, b, variant) && ok;
    ok = torque_angle_read(v, b, variant, &t->angle) && ok;
    const struct value *figure = block_setting(v, b, "figure", variant);
    if (figure->type == VALUE_BAD)
        return false;
    if (figure->type != VALUE_QUANTITY)
        return ok;
    t->figure = figure->quantity;
    if (t->figure->note.len > 0) /* its own, or that of the value it names */
        return ok;
    bool one = v->c->single;
    diag_add(v->c->diags, DIAG_TORQUE_BARE, figure->at,
             "the figure of %s%.*s has no source; write it in quotes behind "
             "the figure%s",
             one ? "the torque" : "torque ", one ? 0 : (int)b->name.len,
             b->name.start, one ? ": figure='15 N.m \"data sheet\"'" : "");
    return false;
}

/* The condition's nut factor as a root with its range. */
static const struct quantity *factor_root(struct values *v,
                                          const struct torque_inputs *t) {
    const struct dim none = {{0}, false};
    struct quantity *k = quantity_root(
        &v->maker, ROOT_TABLE, t->factor->nominal,
        (struct ends){t->factor->low, t->factor->high}, none, NULL);
    k->name = text_of(
        arena_printf(v->c->arena, "nut factor, %s", t->factor->condition));
    k->note = text_of(t->factor->source);
    k->decimals = 2;
    return k;
}

/* Friction in thread and under the head that amounts to the condition's nut
 * factor: the long form with one coefficient for both, solved for it. */
static double friction_for(const struct torque_inputs *t, double k) {
    const struct calculation *c = torque_calculation(TORQUE_K);
    double low = 0.01, high = 1;
    for (int i = 0; i < 60; i++) {
        double middle = (low + high) / 2;
        double input[CALCULATION_INPUTS] = {middle, middle};
        if (c->value(t->joint, input) < k)
            low = middle;
        else
            high = middle;
    }
    return (low + high) / 2;
}

static bool needs_for_target(struct values *v, const struct torque_inputs *t) {
    const char *lacks = !t->has_thread  ? "thread"
                        : !t->has_grade ? "grade"
                                        : NULL;
    if (lacks == NULL && t->factor != NULL)
        return true;
    if (lacks != NULL)
        diag_add(v->c->diags, DIAG_TORQUE_BARE, t->block->at,
                 "torque %.*s has neither the maker's figure nor a %s; write "
                 "figure: with its source, or thread, grade and condition",
                 (int)t->block->name.len, t->block->name.start, lacks);
    else
        diag_add(v->c->diags, DIAG_TORQUE_BARE,
                 block_place(v, t->block, "condition"),
                 "no maker's figure, and '%.*s' is no condition of the table: "
                 "%s",
                 (int)t->condition.len, t->condition.start,
                 torque_words_conditions(v));
    return false;
}

/* Torque for a preload at one friction, by the method that the block names. */
static struct quantity *torque_for(struct values *v,
                                   const struct torque_inputs *t,
                                   const struct quantity *preload, double k,
                                   double mu) {
    if (text_is(block_text(v, t->block, "method", t->variant), "friction")) {
        const struct quantity *m = quantity_number(&v->maker, mu);
        const struct quantity *of_long[] = {preload, m, m};
        return quantity_call(&v->maker, torque_calculation(TORQUE_LONG),
                             t->joint, of_long);
    }
    const struct quantity *of_short[] = {quantity_number(&v->maker, k),
                                         preload};
    return quantity_call(&v->maker, torque_calculation(TORQUE_SHORT), t->joint,
                         of_short);
}

/* Torque from preload: no maker's figure. The usual friction decides, but at
 * the lowest one the bolt must not pass its proof load. */
static struct quantity *computed_torque(struct values *v,
                                        struct torque_inputs *t) {
    if (t->screw != NULL) {
        diag_add(v->c->diags, DIAG_TORQUE_BARE, t->block->at,
                 "torque %.*s is of a tapping screw, which only the maker's "
                 "figure can tell; write figure: with its source",
                 (int)t->block->name.len, t->block->name.start);
        return NULL;
    }
    if (!needs_for_target(v, t))
        return NULL;
    struct text target = block_text(v, t->block, "target", t->variant);
    t->joint->target = TARGET_75_PROOF;
    if (target.len == 0)
        block_assume(v, t->block, t->variant, "target",
                     target_name(TARGET_75_PROOF),
                     target_source(TARGET_75_PROOF));
    else
        target_find(target.start, target.len, &t->joint->target);
    if (!t->bearing_known)
        block_assume(v, t->block, t->variant, "mean diameter under the head",
                     "1.3 times the thread's", "common practice, no source");
    const struct nut_factor *k = t->factor;
    double mu = friction_for(t, k->nominal);
    const struct quantity *of_target[] = {quantity_number(&v->maker, mu)};
    const struct quantity *preload = quantity_call(
        &v->maker, torque_calculation(PRELOAD_TARGET), t->joint, of_target);
    block_working(v, t->block, t->variant, "preload wanted", preload);
    struct quantity *usual = torque_for(v, t, preload, k->nominal, mu);
    const struct quantity *proof = quantity_call(
        &v->maker, torque_calculation(PROOF_LOAD), t->joint, NULL);
    struct quantity *most =
        torque_for(v, t, proof, k->low, friction_for(t, k->low));
    const struct quantity *spare = torque_prevailing_spare(v, &t->drag);
    if (spare != NULL)
        most = quantity_binary(&v->maker, QUANTITY_SUBTRACT, most, spare);
    if (!(most->nominal < usual->nominal))
        return usual;
    block_assume(v, t->block, t->variant, "torque",
                 "what reaches the proof load at the lowest friction of its "
                 "condition",
                 "the target at the usual friction would pass it");
    return most;
}

/* The band of the preload: from the friction that the condition may have, or,
 * where the block says how it is tightened, from the scatter of that way about
 * the usual friction. Before an angle the friction decides. */
static struct quantity *preload_band(struct values *v,
                                     const struct torque_inputs *t,
                                     const struct quantity *torque) {
    const struct dim none = {{0}, false};
    struct text name = block_text(v, t->block, "tightened", t->variant);
    const struct tightening *way = tightening_find(name.start, name.len);
    const struct calculation *c = torque_calculation(PRELOAD_SHORT);
    if (name.len == 0 || way == NULL || t->angle.follows) {
        const struct quantity *of[] = {torque, factor_root(v, t)};
        return quantity_call(&v->maker, c, t->joint, of);
    }
    const struct quantity *of[] = {
        torque, quantity_number(&v->maker, t->factor->nominal)};
    struct quantity *middle = quantity_call(&v->maker, c, t->joint, of);
    middle->name = text_of("preload at the usual friction");
    middle->unit = unit_find("kN", 2);
    block_working(v, t->block, t->variant, "preload at the usual friction",
                  middle);
    struct quantity *scatter =
        quantity_root(&v->maker, ROOT_TABLE, 1,
                      (struct ends){1 - way->minus, 1 + way->plus}, none, NULL);
    scatter->name =
        text_of(arena_printf(v->c->arena, "scatter, %s", way->name));
    scatter->note = text_of(way->source);
    scatter->decimals = 2;
    return quantity_binary(&v->maker, QUANTITY_MULTIPLY, middle, scatter);
}

static struct joint_case joint_of(struct values *v,
                                  const struct torque_inputs *t,
                                  const struct quantity *preload) {
    bool angle = t->angle.follows;
    return (struct joint_case){
        .block = t->block,
        .variant = t->variant,
        .joint = t->joint,
        .named = t->named,
        .factor = t->factor,
        .preload =
            angle ? torque_angle_strength(v, t->block, t->variant, t->joint)
                  : preload,
        .past_yield = angle,
        .stated = t->figure != NULL};
}

/* Nut and hole hold the preload, or what the bolt bears where an angle takes it
 * to its yield point. */
static void require_joint(struct values *v, const struct torque_inputs *t,
                          const struct quantity *preload) {
    struct joint_case joint = joint_of(v, t, preload);
    joint_require(v, &joint);
}

/* The thread's condition is not in the table. */
static void require_unlisted(struct values *v, const struct torque_inputs *t,
                             const struct quantity *torque) {
    struct joint_case joint = joint_of(v, t, NULL);
    const struct quantity *least = torque_unlisted_require(
        v, &joint,
        torque_prevailing_clamps(v, t->block, t->variant, &t->drag, torque));
    if (!joint.past_yield)
        joint.preload = least;
    joint_require(v, &joint);
}

/* A field that an angle behind the torque leaves behind. */
static void set_before(struct values *v, const struct torque_inputs *t,
                       const char *name, const char *what, struct quantity *q) {
    if (!t->angle.follows) {
        block_quantity(v, t->block, name, t->variant, what, q);
        return;
    }
    q->unit = unit_find(strcmp(name, "load") == 0 ? "%" : "kN",
                        strcmp(name, "load") == 0 ? 1 : 2);
    what = arena_printf(v->c->arena, "%s, before the angle", what);
    q->name = text_of(what);
    block_working(v, t->block, t->variant, what, q);
    block_field(v, t->block, name, t->variant, torque_angle_before(v, q));
}

/* Clamping force and its share of the proof load; a figure that stretches the
 * bolt past proof, or hardly loads it, is questioned. */
static void set_preload(struct values *v, const struct torque_inputs *t,
                        const struct quantity *torque) {
    if (!t->has_thread || t->factor == NULL) {
        block_assume(v, t->block, t->variant, "preload", "not computed",
                     t->has_thread ? "the table has no friction for this "
                                     "condition"
                                   : "no thread is stated");
        if (t->has_thread)
            require_unlisted(v, t, torque);
        return;
    }
    struct quantity *preload = preload_band(
        v, t,
        torque_prevailing_clamps(v, t->block, t->variant, &t->drag, torque));
    set_before(v, t, "preload", "clamping force of one bolt", preload);
    require_joint(v, t, preload);
    struct quantity *proof =
        t->has_grade ? quantity_call(&v->maker, torque_calculation(PROOF_LOAD),
                                     t->joint, NULL)
                     : NULL;
    if (proof == NULL || !isfinite(proof->nominal)) {
        block_assume(v, t->block, t->variant, "load of the bolt",
                     "not held against its proof load",
                     proof != NULL      ? "its grade has no proof load"
                     : t->named != NULL ? "no table has the strength of its "
                                          "grade in this diameter"
                                        : "no grade is stated");
        return;
    }
    proof->name = text_of("proof load");
    proof->unit = unit_find("kN", 2);
    block_working(v, t->block, t->variant, "proof load", proof);
    struct quantity *load =
        quantity_binary(&v->maker, QUANTITY_DIVIDE, preload, proof);
    set_before(v, t, "load", "preload, of proof load", load);
    double most = range_ends(load).high;
    bool loads = load->nominal >= 0.1 || t->angle.follows;
    if (round_snap(most) <= 1 && loads)
        return;
    bool usual = load->nominal > 1 || load->nominal < 0.1;
    const char *friction = usual ? "usual" : "lowest";
    block_require(
        v, (struct requirement){
               .block = t->block,
               .variant = t->variant,
               .rule = "torque",
               .what = "preload of the bolt",
               .trouble = arena_printf(
                   v->c->arena,
                   "%s loads the bolt to %s of its proof load at the %s "
                   "friction of its condition, %s",
                   figure_of(v->c->arena, torque, FIGURE_PLAIN),
                   figure_of(v->c->arena, load,
                             usual ? FIGURE_PLAIN : FIGURE_HIGH),
                   friction, t->factor->condition),
               .source = t->factor->source,
               .cure = "check thread, grade and condition against the figure",
               .at = block_place(v, t->block, "figure"),
               .flag = load->nominal <= 1});
}

/* That of the wrench, so that one figure is not in two units. */
static const struct unit *
unit_of_torque(struct values *v, const struct block *b, size_t variant) {
    const struct value *wrench = block_setting(v, b, "wrench", variant);
    if (wrench->type == VALUE_QUANTITY)
        return figure_unit(wrench->with);
    return unit_find(v->units == UNIT_SI ? "N.m" : "lbf.ft",
                     v->units == UNIT_SI ? 3 : 6);
}

bool torque_block_compute(struct values *v, const struct block *b,
                          size_t variant) {
    struct torque_inputs t;
    if (!read_inputs(v, b, variant, &t))
        return false;
    torque_holding_require(v, b, variant);
    torque_order_set(v, b, variant);
    if (!torque_prevailing_read(v, b, variant, &t.drag))
        return false;
    struct quantity *torque =
        t.figure != NULL ? t.figure : computed_torque(v, &t);
    if (torque == NULL)
        return false;
    if (t.figure == NULL) {
        torque->unit = unit_of_torque(v, b, variant);
        block_working(v, b, variant, "torque", torque);
    }
    struct quantity *shown =
        torque_prevailing_shown(v, b, variant, &t.drag, torque);
    if (shown == NULL)
        return false;
    if (t.screw != NULL)
        tapping_require(v, b, variant, t.screw, torque);
    else
        set_preload(v, &t, shown);
    torque = shown;
    block_field(v, b, "torque", variant, torque_angle_behind(&t.angle, torque));
    torque = torque_wrench_shows(v, b, variant, torque);
    if (torque != NULL)
        torque_wrench_set(v, b, variant, torque, &t.angle);
    return true;
}

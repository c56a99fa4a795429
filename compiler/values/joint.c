/* joint.c - what a bolt holds besides itself: nut, tapped hole, galling. */
#include "values/joint.h"

#include "base/arena.h"
#include "base/diag.h"
#include "calc/strip.h"
#include "values/expression.h"
#include "values/range.h"
#include "values/torque_seat.h"
#include "values/torque_words.h"

#include <math.h>
#include <string.h>

const char *joint_load(const struct joint_case *j) {
    return j->past_yield       ? "strength of the bolt after the angle"
           : j->factor == NULL ? "preload at the greatest friction of the table"
                               : "preload";
}

static void require(struct values *v, const struct joint_case *j,
                    const char *setting, struct requirement r) {
    r.block = j->block;
    r.variant = j->variant;
    r.rule = setting;
    r.at = block_place(v, j->block, setting);
    block_require(v, r);
}

/* A nut that holds the preload, but strips before its bolt breaks: one turn too
 * many, and nobody sees it. */
static void ask_weaker(struct values *v, const struct joint_case *j,
                       const struct nut *nut) {
    if (j->joint->grade == NULL || !nut_is_weaker(nut, j->joint->grade))
        return;
    require(v, j, "nut",
            (struct requirement){
                .what = "class of the nut",
                .trouble = arena_printf(
                    v->c->arena,
                    "a nut of class %s is weaker than a bolt of %s: it strips "
                    "before the bolt breaks",
                    nut->name, j->joint->grade->name),
                .source = nut->source,
                .cure = "a nut of the bolt's own class, or a higher one",
                .flag = true});
}

/* The nut's threads hold the preload. */
static void check_nut(struct values *v, const struct joint_case *j) {
    struct text name = block_text(v, j->block, "nut", j->variant);
    bool unified = j->joint->thread.unified;
    if (name.len == 0)
        return;
    const struct nut *nut = nut_find(name.start, name.len, unified);
    if (nut == NULL) {
        diag_add(
            v->c->diags, DIAG_SETTING_VALUE, block_place(v, j->block, "nut"),
            "nut '%.*s': on this thread write %s or of stainless A2-70, A4-80",
            (int)name.len, name.start,
            unified ? "SAE 2, SAE 5, SAE 8" : "5, 6, 8, 9, 10, 12");
        return;
    }
    if (j->preload == NULL)
        return;
    const struct quantity *left = j->preload;
    if (j->past_yield) { /* a nut of its own grade holds a bolt that yields */
        struct quantity *yield = quantity_call(
            &v->maker, torque_calculation(YIELD_LOAD), j->joint, NULL);
        yield->unit = unit_find("kN", 2);
        left = yield;
    }
    double newton = nut->stress * j->joint->thread.stress_area;
    struct requirement holds = {
        .what =
            arena_printf(v->c->arena, "%s, against what the nut holds",
                         j->past_yield ? "bolt that yields" : joint_load(j)),
        .left = left,
        .right = block_table(v, newton, (struct ends){newton, newton}, "kN",
                             "nut", nut->source),
        .source = nut->source,
        .cure = "a nut of the bolt's own grade",
        .flag = true};
    require(v, j, "nut", holds);
    if (requirement_met(&v->maker, &holds)) /* one question is enough */
        ask_weaker(v, j, nut);
}

/* What `into` says: `cast aluminium with wire insert, 12 mm`. */
struct hole {
    const struct engagement_rule *rule;
    bool insert;
    const struct quantity *length; /* how far the bolt is screwed in */
};

static bool is_electrical(struct values *v, const struct joint_case *j) {
    return text_is(block_text(v, j->block, "joint", j->variant), "electrical");
}

/* Glass fibre and wood hold no machine thread. A ground ring under a screw that
 * bites only into them, or into plastic, is no ground. */
static bool holds_thread(struct values *v, const struct joint_case *j,
                         const struct engagement_rule *rule) {
    bool ground = is_electrical(v, j) && rule->use < 1;
    if (!ground && rule->shear > 0)
        return true;
    require(v, j, "into",
            (struct requirement){
                .what = ground ? "ground" : "thread",
                .trouble = arena_printf(v->c->arena,
                                        ground ? "a screw into %s is no ground"
                                               : "%s holds no thread of a bolt",
                                        rule->into),
                .source = "common practice, no source",
                .cure = ground ? "clamp the ring to metal: a bolt, a nut and a "
                                 "bright steel face"
                               : "a bolt through it, with a large washer or a "
                                 "plate behind it, and a nut"});
    return false;
}

bool joint_material(struct values *v, const struct block *b,
                    const char *setting, size_t variant, struct text *material,
                    const struct quantity **length) {
    const struct entry *e = blocks_entry(v, b, setting);
    const struct choice *choice =
        e == NULL ? NULL : variant_choose(v, e, variant);
    if (choice == NULL)
        return false;
    struct text t = choice->text;
    size_t comma = 0;
    while (comma < t.len && t.start[comma] != ',')
        comma++;
    *material = text_trim(text_part(t, 0, comma));
    *length = NULL;
    if (comma == t.len)
        return true;
    struct expression x =
        expression_over(v, blocks_stating(v, b, setting)->scope, variant,
                        text_part(t, comma + 1, t.len));
    struct value value = expression_value(&x);
    *length = value.quantity;
    return expression_fits(&x, &value, "m", setting);
}

/* false when there is none, or after a message. */
static bool read_hole(struct values *v, const struct joint_case *j,
                      struct hole *out) {
    static const char insert[] = " with wire insert";
    size_t tail = sizeof insert - 1;
    struct text material;
    if (!joint_material(v, j->block, "into", j->variant, &material,
                        &out->length))
        return false;
    out->insert =
        material.len > tail &&
        text_is(text_part(material, material.len - tail, material.len), insert);
    if (out->insert)
        material = text_part(material, 0, material.len - tail);
    out->rule = engagement_find(material.start, material.len);
    if (out->rule != NULL && !holds_thread(v, j, out->rule))
        return false;
    if (out->rule != NULL && out->length != NULL)
        return true;
    bool known = out->rule != NULL;
    diag_add(v->c->diags, DIAG_SETTING_VALUE, block_place(v, j->block, "into"),
             known ? "'%.*s': write how far the bolt goes in: %s"
                   : "'%.*s' is no material of the table; write one of %s, and "
                     "how far the bolt goes in: aluminium, 12 mm",
             (int)material.len, material.start,
             known ? "aluminium, 12 mm" : torque_words_materials(v));
    return false;
}

/* Engaged length against a rule of practice: a question. */
static void require_length(struct values *v, const struct joint_case *j,
                           const struct hole *h, double diameters,
                           const char *what, const char *source) {
    double need = diameters * j->joint->thread.diameter;
    require(v, j, "into",
            (struct requirement){
                .what = arena_printf(v->c->arena, "%s in %s, %.3g diameters",
                                     what, h->rule->into, diameters),
                .left = h->length,
                .right = quantity_root(&v->maker, ROOT_TABLE, need,
                                       (struct ends){need, need},
                                       h->length->dim, h->length->unit),
                .relation = RELATION_AT_LEAST,
                .source = source,
                .cure = "a longer bolt, a wire insert, or less torque",
                .flag = true});
}

/* Preload against what strips the hole; whether it is known to hold. That a
 * maker's figure does so at the lowest friction only is a question: the maker
 * knows the material. */
static bool require_strength(struct values *v, const struct joint_case *j,
                             const struct hole *h) {
    struct engagement *e = arena_alloc(v->c->arena, 1, sizeof *e);
    *e = (struct engagement){.thread = j->joint->thread,
                             .hole_shear = h->rule->shear * h->rule->use};
    const struct quantity *of[] = {h->length};
    struct quantity *load =
        quantity_call(&v->maker, strip_calculation(STRIP_HOLE), e, of);
    if (isnan(load->nominal) || j->preload == NULL) {
        block_assume(v, j->block, j->variant, "stripping of the hole",
                     "not computed",
                     j->preload == NULL && j->past_yield
                         ? "no thread or grade tells what the bolt bears"
                     : j->preload == NULL
                         ? "thread or condition gives no preload"
                         : "the thread has no standard limits in the tables");
        return false;
    }
    const struct unit *kn = unit_find("kN", 2);
    load->unit = kn;
    block_working(v, j->block, j->variant, "load that the hole bears", load);
    struct requirement holds = {
        .what = arena_printf(v->c->arena, "%s, against what strips %s",
                             joint_load(j), h->rule->into),
        .left = j->preload,
        .right = load,
        .source = h->rule->shear_source,
        .cure = j->past_yield
                    ? "a longer bolt, or a bolt through it and a nut"
                    : "less torque, a longer bolt, or a bolt through it "
                      "and a nut",
        .flag = j->stated && j->preload->nominal <= range_ends(load).low};
    require(v, j, "into", holds);
    return requirement_met(&v->maker, &holds);
}

static void check_hole(struct values *v, const struct joint_case *j) {
    struct hole h;
    if (!read_hole(v, j, &h))
        return;
    if (!h.insert) {
        bool holds = require_strength(v, j, &h) && h.rule->held > 0 &&
                     (j->factor != NULL || j->past_yield);
        require_length(v, j, &h, holds ? h.rule->held : h.rule->diameters,
                       "engaged thread",
                       holds
                           ? "common practice, no source: where the stripping "
                             "load is computed and holds"
                           : h.rule->source);
        return;
    }
    if (j->joint->grade == NULL) {
        block_assume(v, j->block, j->variant, "length of the wire insert",
                     "not checked", "no grade tells the strength of the bolt");
        return;
    }
    double need = insert_length(h.rule->shear, j->joint->grade->tensile);
    if (!isnan(need)) {
        require_length(v, j, &h, need, "wire insert", insert_source());
        return;
    }
    require(v, j, "into",
            (struct requirement){
                .what = "wire insert",
                .trouble = arena_printf(
                    v->c->arena, "the table has no insert for a %s bolt in %s",
                    j->joint->grade->name, h.rule->into),
                .source = insert_source(),
                .cure = "a stronger material, or a bolt through it and a nut"});
}

/* Stainless on stainless without paste seizes. */
static void check_galling(struct values *v, const struct joint_case *j) {
    if (j->named == NULL || !j->named->stainless || j->factor == NULL ||
        !j->factor->galls)
        return;
    require(
        v, j, "condition",
        (struct requirement){
            .what = "stainless thread",
            .trouble = "stainless on stainless without paste can seize "
                       "before it is tight",
            .source = j->factor->source,
            .cure = "paste on the thread, and the figure that belongs to it",
            .flag = true});
}

static bool is_stainless_nut(struct values *v, const struct joint_case *j) {
    struct text nut = block_text(v, j->block, "nut", j->variant);
    const struct grade *g = NULL;
    return nut.len > 0 &&
           grade_find(nut.start, nut.len, j->joint->thread.diameter, &g) !=
               GRADE_UNREADABLE &&
           g->stainless;
}

/* Dry stainless has twice the friction of dry steel: a torque worked out for
 * one leaves the other loose, or breaks it. A maker's figure is asked about. */
static void check_metals(struct values *v, const struct joint_case *j) {
    if (j->named == NULL || j->factor == NULL)
        return;
    const char *grade = j->named->name, *other = j->factor->condition;
    bool friction = strncmp(other, "stainless", 9) == 0;
    bool bolt = j->named->stainless;
    if (friction == bolt || (friction && is_stainless_nut(v, j)))
        return;
    require(v, j, "condition",
            (struct requirement){
                .what = "grade and condition",
                .trouble = arena_printf(
                    v->c->arena,
                    bolt ? "grade %s is stainless, and '%s' has the friction "
                           "of plain steel"
                         : "grade %s is plain steel, and '%s' has the friction "
                           "of stainless",
                    grade, other),
                .source = j->factor->source,
                .cure = bolt ? "write condition: stainless, anti-seize"
                             : "the grade of a stainless bolt, or the "
                               "condition of a steel thread: clean, dry",
                .flag = j->stated});
}

void joint_require(struct values *v, const struct joint_case *j) {
    check_galling(v, j);
    check_metals(v, j);
    check_hole(v, j);
    check_nut(v, j);
    torque_seat_require(v, j);
}

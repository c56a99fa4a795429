/* joint.c - what a bolt holds besides itself: nut, tapped hole, galling. */
#include "values/joint.h"

#include "base/arena.h"
#include "base/diag.h"
#include "calc/strip.h"
#include "values/expression.h"
#include "values/range.h"

#include <math.h>

static void require(struct values *v, const struct joint_case *j,
                    const char *setting, struct requirement r) {
    r.block = j->block;
    r.variant = j->variant;
    r.rule = setting;
    r.at = block_place(v, j->block, setting);
    block_require(v, r);
}

/* The nut's threads hold the preload. */
static void check_nut(struct values *v, const struct joint_case *j) {
    struct text nut = block_text(v, j->block, "nut", j->variant);
    if (nut.len == 0)
        return;
    const char *source = NULL;
    double stress = nut_proof(nut.start, nut.len, &source);
    if (isnan(stress)) {
        diag_add(v->c->diags, DIAG_SETTING_VALUE,
                 block_place(v, j->block, "nut"),
                 "nut '%.*s': write a class (8, 10), SAE 5, SAE 8 or A2-70",
                 (int)nut.len, nut.start);
        return;
    }
    double newton = stress * j->joint->thread.stress_area;
    require(v, j, "nut",
            (struct requirement){
                .what = "preload, against what the nut holds",
                .left = j->preload,
                .right = block_table(v, newton, (struct ends){newton, newton},
                                     "kN", "nut", source),
                .source = source,
                .cure = "a nut of the bolt's own grade",
                .flag = true});
}

/* A ground ring under a screw that bites only into plastic or glass fibre is no
 * ground. */
static bool check_ground(struct values *v, const struct joint_case *j,
                         struct text material) {
    static const char *const no_metal[] = {"plastic", "glass fibre",
                                           "glass-reinforced plastic", "wood"};
    if (!text_is(block_text(v, j->block, "joint", j->variant), "electrical"))
        return false;
    for (size_t i = 0; i < sizeof no_metal / sizeof no_metal[0]; i++)
        if (text_is(material, no_metal[i])) {
            require(v, j, "into",
                    (struct requirement){
                        .what = "ground",
                        .trouble = arena_printf(v->c->arena,
                                                "a screw into %s is no ground",
                                                no_metal[i]),
                        .source = "common practice, no source",
                        .cure = "clamp the ring to metal: a bolt, a nut and a "
                                "bright steel face"});
            return true;
        }
    return false;
}

/* `aluminium, 12 mm`: the material, and how far the bolt is screwed in. */
static void check_hole(struct values *v, const struct joint_case *j) {
    const struct entry *e = blocks_entry(v, j->block, "into");
    if (e == NULL)
        return;
    const struct choice *choice = variant_choose(v, e, j->variant);
    if (choice == NULL)
        return;
    struct text t = choice->text;
    size_t comma = 0;
    while (comma < t.len && t.start[comma] != ',')
        comma++;
    struct text material = text_trim(text_part(t, 0, comma));
    if (check_ground(v, j, material))
        return;
    const struct engagement_rule *rule =
        engagement_find(material.start, material.len);
    if (rule == NULL || comma == t.len) {
        diag_add(v->c->diags, DIAG_SETTING_VALUE,
                 block_place(v, j->block, "into"),
                 rule == NULL ? "'%.*s' is no material of the table"
                              : "'%.*s': write how far the bolt goes in: "
                                "aluminium, 12 mm",
                 (int)material.len, material.start);
        return;
    }
    struct expression x =
        expression_over(v, blocks_stating(v, j->block, "into")->scope,
                        j->variant, text_part(t, comma + 1, t.len));
    struct value length = expression_value(&x);
    if (!expression_fits(&x, &length, "m", "into"))
        return;
    double need = rule->diameters * j->joint->thread.diameter;
    const struct unit *u = length.quantity->unit;
    require(v, j, "into",
            (struct requirement){
                .what = arena_printf(v->c->arena,
                                     "engaged thread in %s, %.3g diameters",
                                     rule->into, rule->diameters),
                .left = length.quantity,
                .right = quantity_root(&v->maker, ROOT_TABLE, need,
                                       (struct ends){need, need},
                                       length.quantity->dim, u),
                .relation = RELATION_AT_LEAST,
                .source = rule->source,
                .cure = "a longer bolt, a wire insert, or less torque",
                .flag = true});
}

/* Stainless on stainless without paste seizes. */
static void check_galling(struct values *v, const struct joint_case *j) {
    if (j->joint->grade == NULL || !j->joint->grade->stainless ||
        j->factor == NULL || !j->factor->galls)
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

void joint_require(struct values *v, const struct joint_case *j) {
    check_galling(v, j);
    check_hole(v, j);
    if (j->preload != NULL)
        check_nut(v, j);
}

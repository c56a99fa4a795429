/* tapping.c - a `torque` block whose thread is a tapping screw. */
#include "values/tapping.h"

#include "base/arena.h"
#include "calc/strip.h"
#include "calc/word.h"
#include "values/joint.h"
#include "values/range.h"

#include <math.h>

/* What a tapping screw goes into. */
enum parent { PARENT_METAL, PARENT_PLASTIC, PARENT_THERMOSET, PARENT_UNKNOWN };

static enum parent parent_of(struct text material) {
    static const struct {
        const char *name;
        enum parent parent;
    } names[] = {
        {"sheet steel", PARENT_METAL},
        {"steel", PARENT_METAL},
        {"brass", PARENT_METAL},
        {"aluminium", PARENT_METAL},
        {"plastic", PARENT_PLASTIC},
        {"thermoset", PARENT_THERMOSET},
        {"glass-reinforced plastic", PARENT_THERMOSET},
        {"glass fibre", PARENT_THERMOSET},
    };
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        if (word_is(material.start, material.len, names[i].name))
            return names[i].parent;
    return PARENT_UNKNOWN;
}

struct driven {
    const struct block *block;
    size_t variant;
    const struct tapping_screw *screw;
    const struct quantity *figure;
    enum parent parent;
    const struct quantity *depth; /* of metal its thickness; NULL: unstated */
};

static void require(struct values *v, const struct driven *d,
                    const char *setting, struct requirement r) {
    r.block = d->block;
    r.variant = d->variant;
    r.at = block_place(v, d->block, setting);
    block_require(v, r);
}

static void require_most(struct values *v, const struct driven *d,
                         const char *what, const struct quantity *most,
                         const char *source, bool flag) {
    require(v, d, "figure",
            (struct requirement){.rule = "torque",
                                 .what = what,
                                 .left = d->figure,
                                 .right = most,
                                 .source = source,
                                 .cure = "less torque, or a larger screw",
                                 .flag = flag});
}

/* DIN 7975: at most half of what breaks the screw. */
static void check_breaking(struct values *v, const struct driven *d) {
    double half = d->screw->breaking / 2;
    if (!isnan(half))
        require_most(v, d, "torque, against half of what breaks the screw",
                     block_table(v, half, (struct ends){half, half}, "N.m",
                                 "half of the breaking torque",
                                 d->screw->source),
                     d->screw->source, false);
}

/* Into metal: the range that a maker's manual gives, as a question. */
static void check_range(struct values *v, const struct driven *d) {
    double high = d->screw->high;
    if (d->parent == PARENT_METAL && !isnan(high))
        require_most(v, d, "torque, against the usual range into metal",
                     block_table(v, high, (struct ends){high, high}, "N.m",
                                 "usual torque", d->screw->source),
                     d->screw->source, true);
}

/* Into plastic: at most half of what strips it, as a question. */
static void check_strip(struct values *v, const struct driven *d) {
    const struct engagement_rule *rule = engagement_find("plastic", 7);
    if (d->parent != PARENT_PLASTIC || d->depth == NULL || rule == NULL)
        return;
    const struct unit *pa = unit_find("Pa", 2);
    const struct quantity *of_pull[] = {
        quantity_exact(&v->maker, rule->shear, pa->dim, pa), d->depth};
    const struct quantity *pull = quantity_call(
        &v->maker, screw_calculation(SCREW_PULL_OUT), d->screw, of_pull);
    const struct quantity *of_torque[] = {pull,
                                          quantity_number(&v->maker, 0.2)};
    struct quantity *strip = quantity_call(
        &v->maker, screw_calculation(SCREW_STRIP_TORQUE), d->screw, of_torque);
    struct quantity *half =
        quantity_binary(&v->maker, QUANTITY_MULTIPLY,
                        quantity_number(&v->maker, rule->use), strip);
    half->unit = unit_find("N.m", 3);
    require_most(v, d, "torque, against half of what strips plastic", half,
                 rule->shear_source, true);
}

static void set_pilot(struct values *v, const struct driven *d) {
    double hole = NAN;
    if (d->parent == PARENT_METAL && d->depth != NULL)
        hole = screw_pilot_sheet(d->screw, range_ends(d->depth).high);
    if (d->parent == PARENT_METAL && isnan(hole))
        hole = screw_pilot_inch(d->screw, false);
    if (d->parent == PARENT_PLASTIC || d->parent == PARENT_THERMOSET)
        hole = screw_pilot_plastic(d->screw, d->parent == PARENT_THERMOSET);
    if (isnan(hole)) {
        block_assume(v, d->block, d->variant, "pilot hole", "not given",
                     "the table has none for this screw and material");
        return;
    }
    struct quantity *q = block_table(v, hole, (struct ends){hole, hole}, "mm",
                                     NULL, screw_pilot_source());
    q->decimals = 1;
    block_quantity(v, d->block, "pilot", d->variant, "pilot hole", q);
}

/* A ground held by a screw that bites only into plastic is no ground. */
static bool is_no_ground(struct values *v, const struct driven *d) {
    if (d->parent != PARENT_PLASTIC && d->parent != PARENT_THERMOSET)
        return false;
    if (!text_is(block_text(v, d->block, "joint", d->variant), "electrical"))
        return false;
    require(v, d, "into",
            (struct requirement){
                .rule = "into",
                .what = "ground",
                .trouble = "a screw that bites only into plastic is no ground",
                .source = "common practice, no source",
                .cure = "clamp the ring to metal: a bolt, a nut and a bright "
                        "steel face"});
    return true;
}

void tapping_require(struct values *v, const struct block *b, size_t variant,
                     const struct tapping_screw *screw,
                     const struct quantity *figure) {
    struct driven d = {b, variant, screw, figure, PARENT_UNKNOWN, NULL};
    struct text material;
    if (joint_material(v, b, "into", variant, &material, &d.depth))
        d.parent = parent_of(material);
    if (is_no_ground(v, &d))
        return;
    check_breaking(v, &d);
    check_range(v, &d);
    check_strip(v, &d);
    set_pilot(v, &d);
}

/* sag.c - a source whose inner resistance is none that a vehicle's has.
 *
 *   10 A R <= U / 2,  U its resting voltage, or its charging one
 *
 * Batteries of vehicles have some milliohms, small ones for alarms up to about
 * a hundred, which lose a volt at 10 A: from memory, none is near this bound. A
 * source that loses half of its voltage to a few lamps is a slip of the pen, 9
 * ohm for 9 mohm, by which every current into a short comes out too small. */
#include "values/model.h"
#include "values/requirement.h"

#include <string.h>

static const double test_current = 10, share = 0.5;

static const struct quantity *stated(struct values *v, const struct block *b,
                                     const char *setting, size_t variant) {
    const struct value *value = block_setting(v, b, setting, variant);
    return value->type == VALUE_QUANTITY ? value->quantity : NULL;
}

static struct quantity *times(struct values *v, double x, const char *unit,
                              const struct quantity *q) {
    const struct unit *u = unit == NULL ? NULL : unit_find(unit, strlen(unit));
    const struct quantity *factor = quantity_exact(
        &v->maker, x, u == NULL ? (struct dim){{0}, false} : u->dim, u);
    return quantity_binary(&v->maker, QUANTITY_MULTIPLY, factor, q);
}

/* Only one that fails is kept: as a row of the annex it would tell nothing. */
static void question(struct values *v, const struct block *b, size_t variant) {
    const struct quantity *ohm = stated(v, b, "resistance", variant);
    const struct quantity *volt = stated(v, b, "resting", variant);
    if (volt == NULL)
        volt = stated(v, b, "charging", variant);
    struct text chemistry = block_text(v, b, "chemistry", variant);
    if (ohm == NULL || volt == NULL || chemistry.len == 0 ||
        text_is(chemistry, "none")) /* a panel's is no resistance of its own */
        return;
    struct requirement r = {.block = b,
                            .variant = variant,
                            .rule = "sag",
                            .what = "voltage that it loses inside at 10 A",
                            .left = times(v, test_current, "A", ohm),
                            .right = times(v, share, NULL, volt),
                            .relation = RELATION_AT_MOST,
                            .source = "ours, no source: no battery loses half "
                                      "of its voltage at 10 A",
                            .cure = "is mohm meant?",
                            .flag = true,
                            .at = block_place(v, b, "resistance")};
    if (!requirement_met(&v->maker, &r))
        block_require(v, r);
}

void sag_require(struct values *v) {
    const struct guide *g = v->guide;
    for (size_t i = 0; i < g->block_count; i++)
        for (size_t n = 0; n < v->variant_count; n++)
            if (g->blocks[i]->kind->id == KIND_SUPPLY && v->applies >> n & 1)
                question(v, g->blocks[i], n);
}

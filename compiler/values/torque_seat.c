/* torque_seat.c - what the head of a bolt, or its nut, presses on. */
#include "values/torque_seat.h"

#include "base/arena.h"
#include "base/diag.h"
#include "calc/seat.h"
#include "values/range.h"

#include <math.h>

static const struct seat *read_seat(struct values *v,
                                    const struct joint_case *j,
                                    const struct quantity **diameter) {
    struct text material;
    if (!joint_material(v, j->block, "under head", j->variant, &material,
                        diameter))
        return NULL;
    const struct seat *s = seat_find(material.start, material.len);
    if (s != NULL)
        return s;
    struct buf known = buf_in(v->c->arena);
    for (size_t i = 0; (s = seat_at(i)) != NULL; i++)
        buf_printf(&known, "%s%s", i == 0 ? "" : ", ", s->material);
    diag_add(v->c->diags, DIAG_SETTING_VALUE,
             block_place(v, j->block, "under head"),
             "'%.*s' is no seat of the table: %s", (int)material.len,
             material.start, buf_cstr(&known));
    return NULL;
}

static void not_computed(struct values *v, const struct joint_case *j,
                         const char *why) {
    block_assume(v, j->block, j->variant, "pressure under the head",
                 "not computed", why);
}

/* A hexagon head of the thread, or the least diameter that is stated. NULL: not
 * known, or after a message. */
static const struct seated *press(struct values *v, const struct joint_case *j,
                                  const struct quantity *diameter) {
    struct seated *s = arena_alloc(v->c->arena, 1, sizeof *s);
    bool known = seat_hexagon(&j->joint->thread, s);
    if (diameter != NULL)
        s->face = range_ends(diameter).low;
    if (!isfinite(s->hole) || (!known && diameter == NULL)) {
        not_computed(v, j,
                     "the tables have no head or hole of this thread; the "
                     "diameter that presses stands behind a comma");
        return NULL;
    }
    if (s->face > s->hole)
        return s;
    diag_add(v->c->diags, DIAG_SETTING_VALUE,
             block_place(v, j->block, "under head"),
             "what presses is wider than the hole, %s",
             figure_text(v->c->arena, s->hole, unit_find("mm", 2),
                         unit_find("mm", 2)->dim, 1, ROUND_HALF_EVEN));
    return NULL;
}

void torque_seat_require(struct values *v, const struct joint_case *j) {
    const struct quantity *diameter = NULL;
    const struct seat *seat = read_seat(v, j, &diameter);
    if (seat == NULL)
        return;
    const struct seated *by = press(v, j, diameter);
    if (by == NULL)
        return;
    if (j->preload == NULL) {
        not_computed(v, j, "thread, grade or condition gives no preload");
        return;
    }
    double pascal = seat->pressure;
    const struct quantity *of[] = {
        block_table(v, pascal, (struct ends){pascal, pascal}, "MPa",
                    seat->material, seat->source)};
    struct quantity *load =
        quantity_call(&v->maker, seat_calculation(SEAT_LOAD), by, of);
    load->unit = unit_find("kN", 2);
    block_working(v, j->block, j->variant, "load that the seat bears", load);
    block_require(
        v, (struct requirement){
               .block = j->block,
               .variant = j->variant,
               .rule = "seat",
               .what = arena_printf(v->c->arena,
                                    "%s, against what presses the head into %s",
                                    joint_load(j), seat->material),
               .left = j->preload,
               .right = load,
               .source = seat->source,
               .cure = "a flange head or a stiff washer, and its diameter "
                       "behind the material; or less torque",
               .at = block_place(v, j->block, "under head"),
               .flag = j->stated});
}

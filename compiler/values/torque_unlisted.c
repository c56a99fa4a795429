/* torque_unlisted.c - a maker's figure for a thread condition that the table of
 * friction lacks. */
#include "values/torque_unlisted.h"

#include "base/arena.h"
#include "calc/rounding.h"
#include "source/suggest.h"
#include "values/figure.h"
#include "values/range.h"
#include "values/torque_words.h"

#include <math.h>

static struct quantity *preload_at(struct values *v, const struct joint_case *j,
                                   double factor,
                                   const struct quantity *torque) {
    const struct quantity *of[] = {torque, quantity_number(&v->maker, factor)};
    struct quantity *q = quantity_call(
        &v->maker, torque_calculation(PRELOAD_SHORT), j->joint, of);
    q->unit = unit_find("kN", 2);
    return q;
}

/* Too much even where friction takes most of the torque. */
static void refuse_bolt(struct values *v, const struct joint_case *j,
                        const struct quantity *torque,
                        const struct quantity *load) {
    struct arena *a = v->c->arena;
    block_require(
        v, (struct requirement){
               .block = j->block,
               .variant = j->variant,
               .rule = "torque",
               .what = "preload of the bolt",
               .trouble = arena_printf(
                   a,
                   "%s loads the bolt to %s of its proof load at the greatest "
                   "friction of the table, %.2f",
                   figure_of(a, torque, FIGURE_PLAIN),
                   figure_of(a, load, FIGURE_PLAIN), nut_factor_any()->high),
               .source = nut_factor_any()->source,
               .cure = "check thread, grade and condition against the figure",
               .at = block_place(v, j->block, "figure")});
}

static void ask_condition(struct values *v, const struct joint_case *j) {
    struct arena *a = v->c->arena;
    struct text said = block_text(v, j->block, "condition", j->variant);
    const struct nut_factor *near = nut_factor_near(said.start, said.len);
    struct text meant =
        near == NULL ? (struct text){0} : text_of(near->condition);
    block_require(
        v, (struct requirement){
               .block = j->block,
               .variant = j->variant,
               .rule = "condition",
               .what = "condition of the thread",
               .trouble = arena_printf(
                   a,
                   "the table has no friction for '%.*s'%s: how far the figure "
                   "loads bolt, nut and hole is not known",
                   (int)said.len, said.start, suggest(a, said, meant)),
               .source = "common practice, no source",
               .cure = arena_printf(a,
                                    "write the one that comes nearest: %s; or "
                                    "an override with what the maker says",
                                    torque_words_conditions(v)),
               .at = block_place(v, j->block, "condition"),
               .flag = true});
}

static bool is_written(struct values *v, const struct joint_case *j,
                       const char *setting) {
    return blocks_entry(v, j->block, setting) != NULL;
}

const struct quantity *torque_unlisted_require(struct values *v,
                                               const struct joint_case *j,
                                               const struct quantity *torque) {
    const struct nut_factor *any = nut_factor_any();
    const struct quantity *least = preload_at(v, j, any->high, torque);
    const struct quantity *most = preload_at(v, j, any->low, torque);
    const struct quantity *proof =
        j->joint->grade == NULL
            ? NULL
            : quantity_call(&v->maker, torque_calculation(PROOF_LOAD), j->joint,
                            NULL);
    if (proof != NULL && !isfinite(proof->nominal))
        proof = NULL;
    bool around = is_written(v, j, "nut") || is_written(v, j, "into") ||
                  is_written(v, j, "under head");
    if (proof == NULL && !around)
        return least;                      /* nothing to hold it against */
    bool holds = !around || j->past_yield; /* an angle needs no friction */
    if (proof != NULL) {
        struct quantity *load =
            quantity_binary(&v->maker, QUANTITY_DIVIDE, least, proof);
        load->unit = unit_find("%", 1);
        if (round_snap(load->nominal) > 1) {
            refuse_bolt(v, j, torque, load);
            return least;
        }
        holds = holds &&
                round_snap(range_ends(most).high) <= round_snap(proof->nominal);
    }
    if (!holds)
        ask_condition(v, j);
    return least;
}

/* run.c - checks_run: requirements judged, cautions called for. */
#include "base/arena.h"
#include "checks/bare.h"
#include "checks/breaking.h"
#include "checks/hazards.h"
#include "checks/hollow.h"
#include "checks/joints.h"
#include "checks/leads.h"
#include "checks/manner.h"
#include "checks/measured.h"
#include "checks/order.h"
#include "checks/parts.h"
#include "checks/tightness.h"
#include "checks/unfilled.h"
#include "checks/waiting.h"
#include "checks/waiver.h"

/* The overrides of the guide, then what the shop's catalogue weakens. */
static void waivers_list(struct compile *c, const struct guide *g,
                         const struct verdicts *judged,
                         const struct catalogue *k, struct findings *f) {
    const struct waiver *own = waiver_list(c, g, judged);
    size_t more = k == NULL ? 0 : k->lowered_count;
    struct waiver *all =
        arena_grow(c->arena, own, judged->override_count,
                   judged->override_count + more + 1, sizeof *all);
    for (size_t i = 0; i < more; i++)
        all[judged->override_count + i] = k->lowered[i];
    f->waiver = all;
    f->waiver_count = judged->override_count + more;
}

struct findings *checks_run(struct compile *c, const struct guide *g,
                            const struct values *v) {
    struct findings *f = arena_alloc(c->arena, 1, sizeof *f);
    struct verdicts judged = {0};
    judge_all(c, g, v, &judged);
    const struct catalogue *k = catalogue_read(c);
    if (k != NULL) {
        const struct steps *steps = walk_steps(c, g, v);
        hazards_find(c, g, v, k, steps, &judged, f);
        order_check(c, g, v, k, steps, &judged);
        joints_check(c, g, v, k, steps, &judged);
        tightness_check(c, g, v, steps, &judged);
        hollow_check(c, g, v, steps, &judged);
        waiting_check(c, g, v, k, steps, &judged);
        if (c->job == NULL) /* the words are the guide's, and were judged */
            manner_check(c, g, k);
    }
    if (c->job == NULL) {
        bare_find(c, g);
        unfilled_find(c, g);
    }
    breaking_check(c, g, v);
    measured_check(c, g, v);
    leads_check(c, g);
    parts_check(c, g, v);
    waivers_list(c, g, &judged, k, f);
    f->verdict = judged.list;
    f->verdict_count = judged.count;
    return f;
}

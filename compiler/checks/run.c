/* run.c - checks_run: requirements judged, cautions called for. */
#include "base/arena.h"
#include "checks/bare.h"
#include "checks/hazards.h"
#include "checks/leads.h"
#include "checks/measured.h"
#include "checks/parts.h"

struct findings *checks_run(struct compile *c, const struct guide *g,
                            const struct values *v) {
    struct findings *f = arena_alloc(c->arena, 1, sizeof *f);
    struct verdicts judged = {0};
    judge_all(c, g, v, &judged);
    const struct catalogue *k = catalogue_read(c);
    if (k != NULL)
        hazards_find(c, g, v, k, &judged, f);
    bare_find(c, g);
    measured_check(c, g, v);
    leads_check(c, g);
    parts_check(c, g, v);
    f->waiver = judge_waivers(c, &judged);
    f->waiver_count = judged.override_count;
    f->verdict = judged.list;
    f->verdict_count = judged.count;
    return f;
}

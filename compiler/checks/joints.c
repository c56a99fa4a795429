/* joints.c - joints that hold the vehicle together are tightened and signed. */
#include "checks/joints.h"

#include "base/arena.h"
#include "base/diag.h"
#include "checks/deference.h"
#include "checks/tightness.h"
#include "checks/trigger.h"
#include "checks/waiver.h"
#include "source/kind.h"

static bool is_safety_joint(const struct catalogue *k, const struct block *b) {
    const struct hazard *h = catalogue_find(k, "H26");
    for (size_t i = 0; h != NULL && b->scope->parent && i < h->tags.count; i++)
        if (trigger_is_joint(b, h->tags.item[i]))
            return true;
    return false;
}

/* A box anywhere in the outermost step. */
static bool is_signed(const struct guide *g, const struct node *step) {
    for (size_t i = 0; i < g->mark_count; i++) {
        const struct mark *m = g->marks[i];
        const struct node *n = m->node;
        if (m->kind != MARK_INITIAL && m->kind != MARK_HOLD)
            continue;
        while (n != NULL && n != step)
            n = n->parent;
        if (n != NULL)
            return true;
    }
    return false;
}

static void ask(struct compile *c, const struct guide *g, struct span at,
                const char *what, const char *cure) {
    diag_add(c->diags,
             deference_is_released(g) ? DIAG_FLAG_RELEASED : DIAG_FLAG_DRAFT,
             at, "%s; %s", what, cure);
    diag_note(c->diags, (struct span){0},
              "rule sign-off: common practice, no source");
}

static void check_joint(struct compile *c, const struct guide *g,
                        const struct steps *steps, const struct block *b) {
    const struct step_words *last = NULL;
    for (size_t i = 0; i < steps->count; i++) {
        const struct step_words *s = &steps->step[i];
        if (!tightness_said(c, g, s, b))
            continue;
        last = s;
        if (is_signed(g, s->step) ||
            (i + 1 < steps->count && is_signed(g, steps->step[i + 1].step)))
            return;
    }
    if (last == NULL)
        ask(c, g, b->at,
            "no step says how tight this joint is, which holds the vehicle "
            "together",
            "name its torque or its setting in the step that tightens it");
    else
        ask(c, g, last->step->at,
            "nobody signs for this joint, which holds the vehicle together",
            "write {initial} in the step, or {hold} in the next");
}

static bool has_torque(const struct guide *g, struct text tag) {
    for (size_t i = 0; i < g->block_count; i++)
        if (trigger_is_joint(g->blocks[i], tag))
            return true;
    return false;
}

/* Nobody says how tight it is: no guide is made. */
static void refuse(struct compile *c, const struct hazard *h, struct span at,
                   struct text tag) {
    diag_add(c->diags, DIAG_CHECK_FAILED, at,
             "no torque block says how tight this joint is, which holds the "
             "vehicle together; write one with joint: %.*s",
             (int)tag.len, tag.start);
    diag_note(c->diags, (struct span){0}, "rule H26: %s",
              h->source == NULL ? "the hazard catalogue" : h->source);
}

/* A joint that a mark tells of and no torque block: once for each sort. */
static void check_marks(struct compile *c, const struct guide *g,
                        const struct hazard *h, const struct steps *steps) {
    for (size_t t = 0; h != NULL && t < h->tags.count; t++) {
        const struct mark *m = NULL;
        for (size_t i = 0; i < steps->count && m == NULL; i++)
            m = walk_mark(&steps->step[i], &h->tags.item[t], 1);
        if (m != NULL && !has_torque(g, h->tags.item[t]))
            refuse(c, h, m->at, h->tags.item[t]);
    }
}

void joints_check(struct compile *c, const struct guide *g,
                  const struct catalogue *k, const struct steps *steps,
                  const struct verdicts *judged) {
    if (!waiver_covers(judged, "H26", NULL))
        check_marks(c, g, catalogue_find(k, "H26"), steps);
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (is_safety_joint(k, b) && !waiver_covers(judged, "sign-off", b))
            check_joint(c, g, steps, b);
    }
}

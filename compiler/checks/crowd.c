/* crowd.c - so many warnings that none is read. */
#include "checks/crowd.h"

#include "base/arena.h"
#include "base/diag.h"
#include "source/kind.h"
#include "source/tree.h"

enum {
    BEFORE_STEP = 3,
    GUIDE_PANELS = 20, /* from here on a tenth may be DANGER */
    PANELS_A_DANGER = 10
};

static bool is_panel(const struct block *b) {
    enum kind_id k = b->kind->id;
    return k == KIND_DANGER || k == KIND_WARNING || k == KIND_CAUTION ||
           k == KIND_NOTICE;
}

/* Panels of the author in a step, and of the rules before it, in a variant. */
static size_t panels_before(const struct findings *f, const struct node *step,
                            size_t variant) {
    size_t count = 0;
    for (size_t i = 0; i < f->caution_count; i++)
        count += f->caution[i].before == step &&
                 (f->caution[i].variants >> variant & 1) != 0;
    for (const struct node *n = step->first; n != NULL; n = n->next)
        count += n->kind == NODE_BLOCK && is_panel(n->block);
    return count;
}

/* The variant with the most of them. */
static size_t fullest(const struct findings *f, const struct node *step,
                      variant_set applies) {
    size_t most = 0, variant = 0;
    for (size_t k = 0; k < 64 && applies >> k != 0; k++) {
        size_t count = panels_before(f, step, k);
        if ((applies >> k & 1) != 0 && count > most) {
            most = count;
            variant = k;
        }
    }
    return variant;
}

/* "H01, H04" of the rules; the author knows his own. */
static const char *rows_before(struct arena *a, const struct findings *f,
                               const struct node *step, size_t variant) {
    struct buf b = buf_in(a);
    for (size_t i = 0; i < f->caution_count; i++)
        if (f->caution[i].before == step &&
            (f->caution[i].variants >> variant & 1) != 0)
            buf_printf(&b, "%s%s", b.len == 0 ? "" : ", ", f->caution[i].row);
    return buf_cstr(&b);
}

static void check_step(struct compile *c, const struct findings *f,
                       const struct node *step, variant_set applies) {
    size_t variant = fullest(f, step, applies);
    size_t most = panels_before(f, step, variant);
    if (most <= BEFORE_STEP)
        return;
    diag_add(c->diags, DIAG_PANELS_MANY, step->at,
             "step %s has %zu (%s), and %d are read; split the step, or name "
             "the circuit, wire or joint in the step that works on it: what "
             "is computed of it stands there",
             step->number, most, rows_before(c->arena, f, step, variant),
             BEFORE_STEP);
}

void crowd_check(struct compile *c, const struct guide *g,
                 const struct values *v, const struct findings *f) {
    size_t all = f->caution_count, danger = 0;
    for (size_t i = 0; i < f->caution_count; i++) {
        const struct node *step = f->caution[i].before;
        danger += f->caution[i].signal == SIGNAL_DANGER;
        if (i > 0 && f->caution[i - 1].before == step)
            continue;
        check_step(c, f, step, values_applies(v));
    }
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (b->node == NULL || !is_panel(b))
            continue;
        all++;
        danger += b->kind->id == KIND_DANGER;
    }
    if (all >= GUIDE_PANELS && danger * PANELS_A_DANGER > all)
        diag_add(c->diags, DIAG_DANGER_OFTEN, g->root->at,
                 "%zu of %zu panels; keep the word for what will kill", danger,
                 all);
}

/* joints.c - joints that hold the vehicle together are tightened and signed. */
#include "checks/joints.h"

#include "base/arena.h"
#include "base/diag.h"
#include "checks/deference.h"
#include "checks/tightness.h"
#include "checks/trigger.h"
#include "checks/waiver.h"
#include "source/kind.h"

static bool is_safety_joint(const struct values *v, const struct catalogue *k,
                            const struct block *b) {
    const struct hazard *h = catalogue_find(k, "H26");
    bool own = b->scope->parent != NULL && b->name.len > 0; /* no default */
    for (size_t i = 0; h != NULL && own && i < h->tags.count; i++)
        if (trigger_is_joint(v, b, h->tags.item[i]))
            return true;
    return false;
}

/* Of a guide and its variants: who tightens a joint, and who signs. */
struct roll {
    struct compile *c;
    const struct guide *guide;
    const struct values *values;
    const struct steps *steps;
};

/* The variants that find a box anywhere in the outermost step. */
static variant_set signers(const struct roll *r, const struct step_words *s) {
    variant_set in = 0;
    for (size_t i = 0; i < r->guide->mark_count; i++) {
        const struct mark *m = r->guide->marks[i];
        const struct node *n = m->node;
        if (m->kind != MARK_INITIAL && m->kind != MARK_HOLD)
            continue;
        while (n != NULL && n != s->step)
            n = n->parent;
        if (n != NULL)
            in |= values_readers(r->values, m->node);
    }
    return in & s->variants;
}

/* Those that sign in a step or in the next that they read. */
static variant_set signed_by_next(const struct roll *r, size_t index) {
    variant_set in = signers(r, &r->steps->step[index]);
    variant_set open = r->steps->step[index].variants;
    for (size_t i = index + 1; i < r->steps->count && open != 0; i++) {
        in |= signers(r, &r->steps->step[i]) & open;
        open &= ~r->steps->step[i].variants;
    }
    return in;
}

static void ask(const struct roll *r, struct span at, const char *what,
                variant_set in, const char *cure) {
    const char *names = in == values_applies(r->values)
                            ? ""
                            : values_variant_names(r->values, r->c->arena, in);
    diag_add(r->c->diags, deference_flag(r->guide), at, "%s%s%s; %s", what,
             names[0] == '\0' ? "" : "; in ", names, cure);
    diag_note(r->c->diags, (struct span){0},
              "rule sign-off: common practice, no source");
}

static variant_set told_in(const struct roll *r, size_t index,
                           const struct block *b) {
    return tightness_said(r->c, r->values, &r->steps->step[index], b);
}

static void check_joint(const struct roll *r, const struct block *b) {
    variant_set all =
        values_applies(r->values) & values_readers(r->values, b->node);
    variant_set tight = 0, sure = 0;
    for (size_t i = 0; i < r->steps->count; i++) {
        variant_set told = told_in(r, i, b);
        tight |= told & all;
        sure |= told == 0 ? 0 : told & signed_by_next(r, i);
    }
    const struct step_words *last = NULL;
    for (size_t i = 0; i < r->steps->count; i++)
        if ((told_in(r, i, b) & tight & ~sure) != 0)
            last = &r->steps->step[i];
    if (tight != all)
        ask(r, b->at,
            "no step says how tight this joint is, which holds the vehicle "
            "together",
            all & ~tight,
            "name its torque or its setting in the step that tightens it");
    if (last != NULL)
        ask(r, last->step->at,
            "nobody signs for this joint, which holds the vehicle together",
            tight & ~sure,
            "write {initial} in the step, or {hold} in the next");
}

static bool has_torque(const struct guide *g, const struct values *v,
                       struct text tag) {
    for (size_t i = 0; i < g->block_count; i++)
        if (trigger_is_joint(v, g->blocks[i], tag))
            return true;
    return false;
}

/* Nobody says how tight it is: no guide is made. */
static void refuse(struct compile *c, const struct hazard *h, struct span at,
                   struct text tag) {
    static const char behind[] = " joint"; /* "fuel joint": joint: fuel */
    size_t len = tag.len, tail = sizeof behind - 1;
    if (len > tail && text_is(text_part(tag, len - tail, len), behind))
        len -= tail;
    diag_add(c->diags, DIAG_CHECK_FAILED, at,
             "no torque block says how tight this joint is, which holds the "
             "vehicle together; write one with joint: %.*s, or, where no "
             "thread is turned, ```override joint-torque with at: %.*s, reason "
             "and approver",
             (int)len, tag.start, (int)tag.len, tag.start);
    diag_note(c->diags, (struct span){0}, "rule H26: %s",
              h->source == NULL ? "the hazard catalogue" : h->source);
}

/* Sorts of joints that marks tell of and no torque block: the first mark of
 * each, by tag; NULL: none. */
struct bare {
    const struct mark **mark;
    size_t count;
    const char *names; /* "brake, wheel" */
};

static struct bare find_bare(const struct roll *r, const struct hazard *h) {
    struct arena *a = r->c->arena;
    struct bare bare = {arena_alloc(a, h->tags.count + 1, sizeof(*bare.mark)),
                        0, ""};
    struct buf names = buf_in(a);
    for (size_t t = 0; t < h->tags.count; t++) {
        struct text tag = h->tags.item[t];
        const struct mark *m = NULL;
        for (size_t i = 0; i < r->steps->count && m == NULL; i++)
            m = walk_mark(&r->steps->step[i], &h->tags.item[t], 1);
        if (m == NULL || has_torque(r->guide, r->values, tag))
            continue;
        bare.mark[t] = m;
        buf_printf(&names, "%s%.*s", bare.count++ > 0 ? ", " : "", (int)tag.len,
                   tag.start);
    }
    bare.names = buf_cstr(&names);
    return bare;
}

/* Brake shoes hang on springs: a joint with no thread to tighten. An override
 * that names no sort, where several are bare, is told of it, once. */
static bool is_waived(struct compile *c, const struct verdicts *judged,
                      const struct bare *bare, struct text tag) {
    struct waiving *one =
        waiver_find(judged, "joint-torque", NULL, text_cstr(c->arena, tag));
    if (one == NULL)
        return false;
    if (one->narrow || bare->count < 2)
        return one->used = true;
    if (!one->wide)
        diag_add(c->diags, DIAG_OVERRIDE_WIDE, one->block->at,
                 "joint-torque fails at %s; write at: and those of them that "
                 "the reason is for",
                 bare->names);
    one->wide = true;
    return false;
}

/* A joint that a mark tells of and no torque block: once for each sort. */
static void check_marks(const struct roll *r, const struct hazard *h,
                        const struct verdicts *judged) {
    if (h == NULL)
        return;
    struct bare bare = find_bare(r, h);
    for (size_t t = 0; t < h->tags.count; t++)
        if (bare.mark[t] != NULL &&
            !is_waived(r->c, judged, &bare, h->tags.item[t]))
            refuse(r->c, h, bare.mark[t]->at, h->tags.item[t]);
}

void joints_check(struct compile *c, const struct guide *g,
                  const struct values *v, const struct catalogue *k,
                  const struct steps *steps, const struct verdicts *judged) {
    const struct roll r = {c, g, v, steps};
    if (!waiver_covers(judged, "H26", NULL))
        check_marks(&r, catalogue_find(k, "H26"), judged);
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (is_safety_joint(v, k, b) && !waiver_covers(judged, "sign-off", b))
            check_joint(&r, b);
    }
}

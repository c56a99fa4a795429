/* waiver.c - `override` blocks: which rule each sets aside, and where.
 *
 *   at = name { "," name }
 *
 * A name is a block's or that of an element of a circuit; of joint-torque, the
 * sort of a joint, as {touches} has it. */
#include "checks/waiver.h"

#include "base/arena.h"
#include "base/diag.h"
#include "checks/judge.h"
#include "source/circuit_tree.h"
#include "source/kind.h"
#include "source/suggest.h"
#include "source/tree.h"

static struct text setting_text(const struct block *b, const char *name) {
    const struct entry *e = tree_setting(b, name);
    if (e == NULL || e->choice_count == 0)
        return (struct text){NULL, 0};
    return text_trim(e->choices[0].text);
}

const char *waiver_setting(struct arena *a, const struct block *b,
                           const char *name) {
    return text_cstr(a, text_squeezed(a, setting_text(b, name)));
}

void waiver_put_place(struct buf *b, const struct block *block,
                      const char *part) {
    if (part != NULL)
        buf_printf(b, "%s of ", part);
    buf_printf(b, "%s%s%.*s", block->kind->name, block->name.len > 0 ? " " : "",
               (int)block->name.len, block->name.start);
}

void waiver_begin(struct compile *c, const struct guide *g,
                  struct verdicts *out) {
    out->override =
        arena_alloc(c->arena, g->block_count + 1, sizeof *out->override);
    for (size_t i = 0; i < g->block_count; i++)
        if (g->blocks[i]->kind->id == KIND_OVERRIDE)
            out->override[out->override_count++] =
                (struct waiving){.block = g->blocks[i]};
}

static bool lists(struct text at, struct text name) {
    struct text one;
    while (text_next_part(&at, ',', &one))
        if (text_equal(text_trim(one), name))
            return true;
    return false;
}

struct waiving *waiver_find(const struct verdicts *v, const char *rule,
                            const struct block *at, const char *part) {
    struct waiving *found = NULL;
    for (size_t i = 0; i < v->override_count; i++) {
        struct waiving *one = &v->override[i];
        struct text where = setting_text(one->block, "at");
        if (!text_is(one->block->name, rule))
            continue;
        bool names_part = part != NULL && lists(where, text_of(part));
        bool names_block = at != NULL && lists(where, at->name);
        if (names_part || (names_block && part == NULL)) {
            one->narrow = true;
            one->in = at;
            return one;
        }
        if ((where.len == 0 || names_block) && found == NULL) {
            one->narrow = false;
            one->in = where.len == 0 ? NULL : at;
            found = one;
        }
    }
    return found;
}

bool waiver_covers(const struct verdicts *v, const char *rule,
                   const struct block *at) {
    struct waiving *one = waiver_find(v, rule, at, NULL);
    if (one != NULL)
        one->used = true;
    return one != NULL;
}

/* One that sets nothing aside: misspelt, elsewhere, or not needed. What was not
 * worked out for another mistake may yet need it. */
static void question_unused(struct compile *c, const struct verdicts *v,
                            const struct block *b) {
    if (diag_count(c->diags, LEVEL_MISTAKE) > 0)
        return;
    struct nearest near = nearest_to(b->name);
    struct buf open = buf_in(c->arena);
    bool known = false;
    for (size_t i = 0; i < v->count; i++) {
        const struct verdict *one = &v->list[i];
        if (one->rule == NULL)
            continue;
        nearest_offer(&near, text_of(one->rule));
        if (!text_is(b->name, one->rule))
            continue;
        known = true;
        if (one->holds || one->overridden)
            continue;
        open.len = 0;
        waiver_put_place(&open, one->block, one->part);
    }
    if (open.len > 0)
        diag_add(c->diags, DIAG_OVERRIDE_UNUSED, b->at,
                 "at: %s; it is %s where %.*s does not hold",
                 waiver_setting(c->arena, b, "at"), buf_cstr(&open),
                 (int)b->name.len, b->name.start);
    else
        diag_add(c->diags, DIAG_OVERRIDE_UNUSED, b->at,
                 "%.*s holds without it, or is no rule that applies here%s",
                 (int)b->name.len, b->name.start,
                 known ? ""
                       : suggest(c->arena, b->name,
                                 (struct text){near.best, near.best_len}));
}

/* Whether some block or element of a circuit has the name; those that have
 * another are offered. */
static bool is_place(const struct guide *g, struct text name,
                     struct nearest *near) {
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (text_equal(b->name, name) ||
            (b->circuit != NULL && circuit_find(b->circuit, name) != NULL))
            return true;
        nearest_offer(near, b->name);
        for (size_t k = 0; b->circuit != NULL && k < b->circuit->element_count;
             k++)
            nearest_offer(near, b->circuit->element[k].id);
    }
    return false;
}

/* Whether the rule was asked there, and holds. */
static bool holds_at(const struct verdicts *v, struct text rule,
                     struct text name) {
    bool asked = false;
    for (size_t i = 0; i < v->count; i++) {
        const struct verdict *one = &v->list[i];
        struct text part = text_of(one->part == NULL ? "" : one->part);
        if (one->rule == NULL || !text_is(rule, one->rule) ||
            !(text_equal(part, name) || text_equal(one->block->name, name)))
            continue;
        if (!one->holds)
            return false;
        asked = true;
    }
    return asked;
}

/* Whether some step touches a joint of the sort; those that are touched are
 * offered. */
static bool is_touched(const struct guide *g, struct text sort,
                       struct nearest *near) {
    for (size_t i = 0; i < g->mark_count; i++)
        for (size_t k = 0; k < g->marks[i]->list.count; k++) {
            if (text_equal(g->marks[i]->list.tag[k], sort))
                return true;
            nearest_offer(near, g->marks[i]->list.tag[k]);
        }
    return false;
}

static const char *offered(struct compile *c, struct text name,
                           const struct nearest *near) {
    return suggest(c->arena, name, (struct text){near->best, near->best_len});
}

static void question_sort(struct compile *c, const struct guide *g,
                          struct span at, struct text name) {
    struct nearest near = nearest_to(name);
    if (!is_touched(g, name, &near))
        diag_add(c->diags, DIAG_OVERRIDE_UNUSED, at,
                 "at: no step touches '%.*s'%s", (int)name.len, name.start,
                 offered(c, name, &near));
}

static void question_place(struct compile *c, const struct guide *g,
                           const struct verdicts *v, struct text rule,
                           struct span at, struct text name) {
    struct nearest near = nearest_to(name);
    if (!is_place(g, name, &near))
        diag_add(c->diags, DIAG_OVERRIDE_UNUSED, at,
                 "at: no block and no element of a circuit is called "
                 "'%.*s'%s",
                 (int)name.len, name.start, offered(c, name, &near));
    else if (holds_at(v, rule, name))
        diag_add(c->diags, DIAG_OVERRIDE_UNUSED, at,
                 "at: %.*s holds at '%.*s' without it", (int)rule.len,
                 rule.start, (int)name.len, name.start);
}

/* Names in a list of which others set something aside: misspelt, or left over.
 */
static void question_places(struct compile *c, const struct guide *g,
                            const struct verdicts *v, const struct block *b) {
    struct text rest = setting_text(b, "at"), one;
    while (text_next_part(&rest, ',', &one)) {
        struct text name = text_trim(one);
        struct span at = place_of(b->scope->src, name);
        if (text_is(b->name, "joint-torque"))
            question_sort(c, g, at, name);
        else
            question_place(c, g, v, b->name, at, name);
    }
}

const struct waiver *waiver_list(struct compile *c, const struct guide *g,
                                 const struct verdicts *v) {
    struct arena *a = c->arena;
    struct waiver *list = arena_alloc(a, v->override_count + 1, sizeof *list);
    for (size_t i = 0; i < v->override_count; i++) {
        const struct waiving *one = &v->override[i];
        const struct block *b = one->block;
        if (!one->used && !one->wide)
            question_unused(c, v, b);
        else
            question_places(c, g, v, b);
        list[i] = (struct waiver){
            b, text_cstr(a, b->name), waiver_setting(a, b, "at"),
            waiver_setting(a, b, "reason"), waiver_setting(a, b, "approver")};
    }
    return list;
}

/* annex.c - the calculations behind the page. */
#include "layout/annex.h"

#include "base/arena.h"
#include "layout/table.h"

/* The workings of a block that a set of variants share. */
struct group {
    variant_set variants;
    const struct working *list;
    size_t count;
};

static bool same_text(const char *a, const char *b) {
    return text_equal(text_of(a), text_of(b));
}

static bool same_group(const struct group *a, const struct group *b) {
    if (a->count != b->count)
        return false;
    for (size_t i = 0; i < a->count; i++)
        if (!same_text(a->list[i].what, b->list[i].what) ||
            !same_text(a->list[i].numbers, b->list[i].numbers) ||
            !same_text(a->list[i].result, b->list[i].result))
            return false;
    return true;
}

static size_t group_workings(struct leaf *l, const struct block *b,
                             struct group **groups) {
    const struct variant *list;
    size_t variants = values_variants(l->values, &list), count = 0;
    struct group *g = arena_alloc(l->composer.arena, variants + 1, sizeof *g);
    for (size_t i = 0; i < variants; i++) {
        struct group one = {.variants = (variant_set)1 << i};
        if ((l->applies & one.variants) == 0)
            continue;
        one.count =
            values_working(l->values, l->composer.arena, b, i, &one.list);
        size_t at = 0;
        while (at < count && !same_group(&g[at], &one))
            at++;
        if (at == count)
            g[count++] = one;
        else
            g[at].variants |= one.variants;
    }
    *groups = g;
    return count;
}

static void add_line(struct leaf *l, struct rich *r, enum face face,
                     const char *text) {
    if (text == NULL || text[0] == '\0')
        return;
    if (!rich_empty(r))
        rich_line_end(l->composer.arena, r);
    leaf_add(l, r, l->style.note, face, text);
}

/* What and result on the left; formula, figures, source on the right. */
static void add_working(struct leaf *l, struct table *t,
                        const struct working *w, struct span at) {
    struct table_row *row = table_add(l->composer.arena, t, at);
    add_line(l, &row->cell[0], FACE_REGULAR, w->what);
    add_line(l, &row->cell[0], FACE_BOLD, w->result);
    for (size_t i = 0; i < row->cell[0].count; i++)
        row->cell[0].chunk[i].whole =
            row->cell[0].chunk[i].tone.face == FACE_BOLD;
    add_line(l, &row->cell[1], FACE_REGULAR, w->formula);
    add_line(l, &row->cell[1], FACE_REGULAR, w->numbers);
    add_line(l, &row->cell[1], FACE_OBLIQUE, w->source);
}

static void set_block(struct leaf *l, const struct block *b) {
    struct arena *a = l->composer.arena;
    struct group *groups;
    size_t count = group_workings(l, b, &groups);
    for (size_t i = 0; i < count; i++) {
        if (groups[i].count == 0)
            continue;
        const char *names =
            groups[i].variants == l->applies
                ? ""
                : arena_printf(
                      a, ", %s",
                      values_variant_names(l->values, a, groups[i].variants));
        const char *title =
            arena_printf(a, "%s %.*s%s", b->kind->name, (int)b->name.len,
                         b->name.start, names);
        struct table *t = table_new(a, 2, text_of(title), b->at);
        leaf_add(l, &t->head[0], l->style.note, FACE_BOLD, title);
        for (size_t k = 0; k < groups[i].count; k++)
            add_working(l, t, &groups[i].list[k], b->at);
        flow_space(&l->flow, 12);
        table_set(&l->flow, t, 0, leaf_width(l), l->style.note);
    }
}

static bool has_workings(enum kind_id id) {
    return id == KIND_WIRE || id == KIND_FUSE || id == KIND_TORQUE;
}

static void set_workings(struct leaf *l) {
    for (size_t i = 0; i < l->guide->block_count; i++) {
        const struct block *b = l->guide->blocks[i];
        if (has_workings(b->kind->id) && b->node != NULL && b->name.len > 0)
            set_block(l, b);
    }
}

static struct table *open_table(struct leaf *l, const char *title,
                                const char *const *heads, size_t count) {
    struct table *t =
        table_new(l->composer.arena, count, text_of(title), l->guide->root->at);
    for (size_t k = 0; k < count; k++)
        leaf_add(l, &t->head[k], l->style.note, FACE_BOLD, heads[k]);
    return t;
}

static void close_table(struct leaf *l, const struct table *t,
                        const char *title) {
    if (t->count == 0)
        return;
    leaf_subheading(l, text_of(title), t->at);
    table_set(&l->flow, t, 0, leaf_width(l), l->style.note);
}

static void add_words(struct leaf *l, struct rich *r, const char *text) {
    leaf_add(l, r, l->style.note, FACE_REGULAR, text == NULL ? "–" : text);
}

static void add_figure(struct leaf *l, struct rich *r, const char *text) {
    leaf_add_value(l, r, l->style.note, FACE_REGULAR, text);
}

static void add_names(struct leaf *l, struct rich *r, variant_set s) {
    add_figure(l, r,
               (s & l->applies) == l->applies
                   ? "all"
                   : values_variant_names(l->values, l->composer.arena,
                                          s & l->applies));
}

static void add_block(struct leaf *l, struct rich *r, const struct block *b) {
    if (b == NULL)
        return;
    rich_add(l->composer.arena, r, leaf_tone(l->style.note, FACE_BOLD),
             b->name.len > 0 ? b->name : text_of(b->kind->name), b->at)
        ->whole = true;
}

static void set_verdicts(struct leaf *l) {
    static const char *const heads[] = {"block",  "check", "value", "limit",
                                        "margin", "for",   "basis"};
    struct table *t = open_table(l, "Checks", heads, 7);
    for (size_t i = 0; i < l->findings->verdict_count; i++) {
        const struct verdict *v = &l->findings->verdict[i];
        if ((v->variants & l->applies) == 0)
            continue;
        struct table_row *row =
            table_add(l->composer.arena, t,
                      v->block == NULL ? l->guide->root->at : v->block->at);
        add_block(l, &row->cell[0], v->block);
        add_words(l, &row->cell[1], v->what);
        add_figure(l, &row->cell[2], v->value);
        add_figure(l, &row->cell[3], v->limit);
        add_figure(l, &row->cell[4], v->overridden ? "set aside" : v->margin);
        add_names(l, &row->cell[5], v->variants);
        add_words(l, &row->cell[6], v->source);
    }
    close_table(l, t, "Checks");
}

static void set_assumptions(struct leaf *l) {
    static const char *const heads[] = {"block", "not stated", "taken as",
                                        "for", "basis"};
    const struct assumption *list;
    size_t count = values_assumptions(l->values, &list);
    struct table *t = open_table(l, "Assumptions", heads, 5);
    for (size_t i = 0; i < count; i++) {
        if ((list[i].variants & l->applies) == 0)
            continue;
        struct table_row *row = table_add(
            l->composer.arena, t,
            list[i].block == NULL ? l->guide->root->at : list[i].block->at);
        add_block(l, &row->cell[0], list[i].block);
        add_words(l, &row->cell[1], list[i].what);
        add_figure(l, &row->cell[2], list[i].value);
        add_names(l, &row->cell[3], list[i].variants);
        add_words(l, &row->cell[4], list[i].source);
    }
    close_table(l, t, "Assumptions");
}

static void set_waivers(struct leaf *l) {
    static const char *const heads[] = {"rule", "at", "reason", "approved by"};
    struct table *t = open_table(l, "Rules set aside", heads, 4);
    for (size_t i = 0; i < l->findings->waiver_count; i++) {
        const struct waiver *w = &l->findings->waiver[i];
        struct table_row *row =
            table_add(l->composer.arena, t,
                      w->block == NULL ? l->guide->root->at : w->block->at);
        leaf_add(l, &row->cell[0], l->style.note, FACE_BOLD, w->rule);
        add_words(l, &row->cell[1], w->at);
        add_words(l, &row->cell[2], w->reason);
        add_words(l, &row->cell[3], w->approver);
    }
    close_table(l, t, "Rules set aside");
}

bool annex_any(const struct leaf *l) {
    const struct assumption *list;
    if (l->findings->verdict_count > 0 || l->findings->waiver_count > 0 ||
        values_assumptions(l->values, &list) > 0)
        return true;
    for (size_t i = 0; i < l->guide->block_count; i++) {
        const struct block *b = l->guide->blocks[i];
        if (has_workings(b->kind->id) && b->node != NULL && b->name.len > 0)
            return true;
    }
    return false;
}

void annex_set(struct leaf *l) {
    set_waivers(l);
    set_verdicts(l);
    set_assumptions(l);
    if (l->findings->verdict_count > 0)
        leaf_subheading(l, text_of("Working"), l->guide->root->at);
    set_workings(l);
}

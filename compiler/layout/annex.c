/* annex.c - the calculations behind the page. */
#include "layout/annex.h"

#include "base/arena.h"
#include "layout/table.h"

/* One line of a block's working in each variant; the same figures are printed
 * once. */
struct line_group {
    variant_set variants;
    const struct working *w;
};

static bool same_text(const char *a, const char *b) {
    return text_equal(text_of(a), text_of(b));
}

static bool same_figures(const struct working *a, const struct working *b) {
    return same_text(a->numbers, b->numbers) && same_text(a->result, b->result);
}

/* The workings of a block by variant; lists of one block have the same lines in
 * the same order unless a decision took another way in some variant. */
struct block_work {
    const struct working **list; /* [variant] */
    size_t *count;
    size_t variants;
};

static struct block_work work_of(struct leaf *l, const struct block *b) {
    const struct variant *list;
    struct arena *a = l->composer.arena;
    struct block_work w = {.variants = values_variants(l->values, &list)};
    w.list = arena_alloc(a, w.variants + 1, sizeof *w.list);
    w.count = arena_alloc(a, w.variants + 1, sizeof *w.count);
    for (size_t i = 0; i < w.variants; i++)
        if ((l->applies & (variant_set)1 << i) != 0)
            w.count[i] = values_working(l->values, a, b, i, &w.list[i]);
    return w;
}

static const struct working *find_line(const struct block_work *w,
                                       size_t variant, const char *what,
                                       const char *formula) {
    for (size_t i = 0; i < w->count[variant]; i++)
        if (same_text(w->list[variant][i].what, what) &&
            same_text(w->list[variant][i].formula, formula))
            return &w->list[variant][i];
    return NULL;
}

/* Variants with the same figures for the line, in order. */
static size_t group_line(struct leaf *l, const struct block_work *w,
                         const struct working *line, struct line_group **out) {
    struct line_group *g =
        arena_alloc(l->composer.arena, w->variants + 1, sizeof *g);
    size_t count = 0;
    for (size_t i = 0; i < w->variants; i++) {
        const struct working *one = find_line(w, i, line->what, line->formula);
        if (one == NULL)
            continue;
        size_t at = 0;
        while (at < count && !same_figures(g[at].w, one))
            at++;
        if (at == count)
            g[count++].w = one;
        g[at].variants |= (variant_set)1 << i;
    }
    *out = g;
    return count;
}

static void add_line(struct leaf *l, struct rich *r, enum face face,
                     const char *text) {
    if (text == NULL || text[0] == '\0')
        return;
    if (r->count > 0)
        rich_line_end(l->composer.arena, r);
    leaf_add(l, r, l->style.least, face, text);
}

/* What, formula and source on the left; results and figures on the right. */
static void add_working(struct leaf *l, struct table *t,
                        const struct block_work *w, const struct working *line,
                        struct span at) {
    struct line_group *groups;
    size_t count = group_line(l, w, line, &groups);
    struct table_row *row = table_add(l->composer.arena, t, at);
    add_line(l, &row->cell[0], FACE_REGULAR, line->what);
    add_line(l, &row->cell[0], FACE_REGULAR, line->formula);
    add_line(l, &row->cell[0], FACE_OBLIQUE, line->source);
    for (size_t i = 0; i < count; i++) {
        struct rich *r = &row->cell[1];
        const struct working *one = groups[i].w;
        if (r->count > 0)
            rich_line_end(l->composer.arena, r);
        if (groups[i].variants != l->applies)
            leaf_add(
                l, r, l->style.least, FACE_REGULAR,
                arena_printf(l->composer.arena, "%s: ",
                             values_variant_names(l->values, l->composer.arena,
                                                  groups[i].variants)));
        leaf_add_value(l, r, l->style.least, FACE_BOLD, one->result);
        add_line(l, r, FACE_REGULAR, one->numbers);
    }
}

/* The line was printed already, for an earlier variant. */
static bool is_printed(const struct block_work *w, size_t variant,
                       const struct working *line) {
    for (size_t i = 0; i < variant; i++)
        if (find_line(w, i, line->what, line->formula) != NULL)
            return true;
    return false;
}

static void set_block(struct leaf *l, const struct block *b) {
    struct arena *a = l->composer.arena;
    struct block_work w = work_of(l, b);
    const char *title = arena_printf(a, "%s %.*s", b->kind->name,
                                     (int)b->name.len, b->name.start);
    struct table *t = table_new(a, 2, text_of(title), b->at);
    leaf_add(l, &t->head[0], l->style.least, FACE_BOLD, title);
    for (size_t i = 0; i < w.variants; i++)
        for (size_t k = 0; k < w.count[i]; k++)
            if (!is_printed(&w, i, &w.list[i][k]))
                add_working(l, t, &w, &w.list[i][k], b->at);
    flow_space(&l->flow, 12);
    table_set(&l->flow, t, 0, leaf_width(l), l->style.least);
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
        leaf_add(l, &t->head[k], l->style.least, FACE_BOLD, heads[k]);
    return t;
}

static void close_table(struct leaf *l, const struct table *t,
                        const char *title) {
    if (t->count == 0)
        return;
    leaf_subheading(l, text_of(title), 0, t->at);
    table_set(&l->flow, t, 0, leaf_width(l), l->style.least);
}

static void add_words(struct leaf *l, struct rich *r, const char *text) {
    leaf_add(l, r, l->style.least, FACE_REGULAR, text == NULL ? "–" : text);
}

static void add_figure(struct leaf *l, struct rich *r, const char *text) {
    leaf_add_value(l, r, l->style.least, FACE_REGULAR, text);
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
    rich_add(l->composer.arena, r, leaf_tone(l->style.least, FACE_BOLD),
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
        leaf_add(l, &row->cell[0], l->style.least, FACE_BOLD, w->rule);
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
        leaf_subheading(l, text_of("Working"), 0, l->guide->root->at);
    set_workings(l);
}

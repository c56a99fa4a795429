/* trace.c - how each computed figure came about, and from which source. */
#include "layout/trace.h"

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

/* Sources are long and come back: each is printed once, with a number. */
struct sources {
    const char **list;
    size_t count, room;
};

static size_t source_number(struct leaf *l, struct sources *s,
                            const char *source) {
    for (size_t i = 0; i < s->count; i++)
        if (same_text(s->list[i], source))
            return i + 1;
    if (s->count == s->room) {
        size_t room = s->room == 0 ? 16 : s->room * 2;
        s->list = arena_grow(l->composer.arena, s->list, s->count, room,
                             sizeof *s->list);
        s->room = room;
    }
    s->list[s->count++] = source;
    return s->count;
}

static bool is_text(const char *text) {
    return text != NULL && text[0] != '\0';
}

/* What and formula on the left, with the number of the source; on the right a
 * line for each set of variants: result, figures put in. */
static void add_working(struct leaf *l, struct table *t, struct sources *s,
                        const struct block_work *w, const struct working *line,
                        struct span at) {
    struct arena *a = l->composer.arena;
    struct type type = l->style.least;
    struct line_group *groups;
    size_t count = group_line(l, w, line, &groups);
    struct table_row *row = table_add(a, t, at);
    struct rich *left = &row->cell[0], *right = &row->cell[1];
    leaf_add(l, left, type, FACE_REGULAR, line->what);
    if (is_text(line->source))
        leaf_add(l, left, type, FACE_REGULAR,
                 arena_printf(a, " [%zu]", source_number(l, s, line->source)));
    if (is_text(line->formula)) {
        rich_line_end(a, left);
        leaf_add(l, left, type, FACE_OBLIQUE, line->formula);
    }
    for (size_t i = 0; i < count; i++) {
        const struct working *one = groups[i].w;
        if (right->count > 0)
            rich_line_end(a, right);
        if (groups[i].variants != l->applies)
            leaf_add(l, right, type, FACE_REGULAR,
                     arena_printf(a, "%s: ",
                                  values_variant_names(l->values, a,
                                                       groups[i].variants)));
        leaf_add_value(l, right, type, FACE_BOLD, one->result);
        if (is_text(one->numbers))
            leaf_add(l, right, type, FACE_REGULAR,
                     arena_printf(a, " from %s", one->numbers));
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

/* The same in all tables, so that they read as one. */
static const double shares[] = {0.36, 0.64};

static void set_block(struct leaf *l, struct sources *s,
                      const struct block *b) {
    struct arena *a = l->composer.arena;
    struct block_work w = work_of(l, b);
    const char *title = arena_printf(a, "%s %.*s", b->kind->name,
                                     (int)b->name.len, b->name.start);
    struct table *t = table_new(a, 2, text_of(title), b->at);
    t->share = shares;
    leaf_add(l, &t->head[0], l->style.least, FACE_BOLD, title);
    for (size_t i = 0; i < w.variants; i++)
        for (size_t k = 0; k < w.count[i]; k++)
            if (!is_printed(&w, i, &w.list[i][k]))
                add_working(l, t, s, &w, &w.list[i][k], b->at);
    flow_space(&l->flow, 12);
    table_set(&l->flow, t, 0, leaf_width(l), l->style.least);
}

static bool has_workings(enum kind_id id) {
    return id == KIND_WIRE || id == KIND_FUSE || id == KIND_TORQUE;
}

static bool is_traced(const struct block *b) {
    return has_workings(b->kind->id) && b->node != NULL && b->name.len > 0;
}

bool trace_any(const struct leaf *l) {
    for (size_t i = 0; i < l->guide->block_count; i++)
        if (is_traced(l->guide->blocks[i]))
            return true;
    return false;
}

static void set_sources(struct leaf *l, const struct sources *s) {
    struct type type = l->style.least;
    if (s->count == 0)
        return;
    leaf_subheading(l, text_of("Sources"), 0, l->guide->root->at);
    for (size_t i = 0; i < s->count; i++) {
        struct rich r = {0};
        leaf_add(
            l, &r, type, FACE_REGULAR,
            arena_printf(l->composer.arena, "[%zu] %s", i + 1, s->list[i]));
        flow_space(&l->flow, 2);
        flow_paragraph(&l->flow, &r, 0, leaf_width(l), type,
                       l->guide->root->at);
    }
}

void trace_set(struct leaf *l) {
    struct sources s = {0};
    if (!trace_any(l))
        return;
    leaf_subheading(l, text_of("Working"), 0, l->guide->root->at);
    for (size_t i = 0; i < l->guide->block_count; i++)
        if (is_traced(l->guide->blocks[i]))
            set_block(l, &s, l->guide->blocks[i]);
    set_sources(l, &s);
}

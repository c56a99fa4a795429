/* annex.c - the calculations behind the page. */
#include "layout/annex.h"

#include "base/arena.h"
#include "layout/cite.h"
#include "layout/columns.h"
#include "layout/table.h"
#include "layout/tally.h"
#include "layout/trace.h"
#include "source/namesake.h"

#include <string.h>

static struct table *open_table(struct leaf *l, const char *title,
                                const char *const *heads, size_t count) {
    struct table *t =
        table_new(l->composer.arena, count, text_of(title), l->guide->root->at);
    for (size_t k = 0; k < count; k++)
        leaf_add_value(l, &t->head[k], l->style.least, FACE_BOLD, heads[k]);
    return t;
}

static void set_title(struct leaf *l, const char *title) {
    struct rich r = {0};
    leaf_add(l, &r, l->style.table, FACE_BOLD, title);
    flow_space(&l->flow, 7);
    struct slab *s = flow_paragraph(&l->flow, &r, 0, leaf_width(l),
                                    l->style.table, l->guide->root->at);
    s->outline = text_of(title);
    s->outline_level = 2;
    leaf_join_title(l);
}

static void close_table(struct leaf *l, const struct table *t,
                        const char *title) {
    if (t->count == 0)
        return;
    set_title(l, title);
    table_set(&l->flow, t, 0, leaf_width(l), l->style.least);
}

static void add_words(struct leaf *l, struct rich *r, const char *text) {
    leaf_add(l, r, l->style.least, FACE_REGULAR, text == NULL ? "–" : text);
}

static void add_figure(struct leaf *l, struct rich *r, const char *text) {
    leaf_add_value(l, r, l->style.least, FACE_REGULAR, text);
}

/* What does not hold is no margin: by how much, and that it is still open, in
 * bold. A rule set aside says so alone; why stands in its own table. */
static bool add_shortfall(struct leaf *l, struct rich *r,
                          const struct verdict *v) {
    struct type type = l->style.least;
    if (v->holds)
        return false;
    if (v->overridden) {
        leaf_add_value(l, r, type, FACE_REGULAR, "set aside");
        return true;
    }
    if (v->margin != NULL && v->margin[0] != '\0') {
        leaf_add_value(l, r, type, FACE_BOLD,
                       arena_printf(l->composer.arena, "%s %s",
                                    v->too_little ? "short by" : "over by",
                                    v->margin));
        leaf_add(l, r, type, FACE_BOLD, ", ");
    }
    leaf_add_value(l, r, type, FACE_BOLD, "open question");
    return true;
}

/* "263 times the limit" takes two lines at most. */
static void add_margin(struct leaf *l, struct rich *r,
                       const struct verdict *v) {
    const char *text = v->margin;
    if (add_shortfall(l, r, v))
        return;
    const char *limit = text == NULL ? NULL : strstr(text, " the limit");
    if (limit == NULL) {
        add_figure(l, r, text);
        return;
    }
    add_figure(l, r,
               arena_copy(l->composer.arena, text, (size_t)(limit - text)));
    add_words(l, r, " ");
    add_figure(l, r, limit + 1);
}

static void add_block(struct leaf *l, struct rich *r, const struct block *b) {
    if (b == NULL)
        return;
    rich_add(l->composer.arena, r, leaf_tone(l->style.least, FACE_BOLD),
             b->name.len > 0
                 ? text_of(namesake_name(l->composer.arena, l->guide, b))
                 : text_of(b->kind->name),
             b->at)
        ->whole = true;
}

static const char *names_of(struct leaf *l, variant_set s) {
    return (s & l->applies) == l->applies
               ? "all"
               : values_variant_names(l->values, l->composer.arena,
                                      s & l->applies);
}

/* The author's <= and >= as the page has them. */
static const char *comparison(struct leaf *l, const char *what) {
    struct buf b = buf_in(l->composer.arena);
    for (const char *s = what; *s != '\0'; s++) {
        bool pair = (s[0] == '<' || s[0] == '>') && s[1] == '=';
        if (pair)
            buf_puts(&b, *s++ == '<' ? "≤" : "≥");
        else
            buf_add(&b, s, 1);
    }
    return buf_cstr(&b);
}

enum { LINE_LETTERS = 54 }; /* of the check with its basis, on one line */

/* What the check rests on: behind it when both are short, else by number. */
static void add_basis(struct leaf *l, struct rich *r, struct cited *sources,
                      const struct tally_row *row) {
    const struct verdict *v = row->verdict;
    size_t letters =
        text_columns(text_of(row->what)) + text_columns(text_of(v->source));
    if (v->source == NULL || v->source[0] == '\0')
        return;
    if (letters <= LINE_LETTERS)
        add_words(l, r, arena_printf(l->composer.arena, ": %s", v->source));
    else
        add_words(l, r, cite(l, sources, v->source));
}

static void add_verdict(struct leaf *l, struct table *t, struct cited *sources,
                        const struct tally_row *row) {
    const struct verdict *v = row->verdict;
    struct rich *cell =
        table_add(l->composer.arena, t,
                  v->block == NULL ? l->guide->root->at : v->block->at)
            ->cell;
    add_block(l, &cell[0], v->block);
    add_words(l, &cell[1], comparison(l, row->what));
    add_basis(l, &cell[1], sources, row);
    add_figure(l, &cell[2], v->value);
    add_figure(l, &cell[3], v->limit);
    add_margin(l, &cell[4], v);
    add_figure(l, &cell[5], names_of(l, v->variants));
}

static void set_verdicts(struct leaf *l, struct cited *sources) {
    static const char *const heads[] = {"block", "check",  "value",
                                        "limit", "margin", "least in"};
    struct table *t = open_table(l, "Checks", heads, 6);
    size_t count;
    const struct tally_row *row =
        tally_checks(l->composer.arena, l->findings, l->applies, &count);
    for (size_t i = 0; i < count; i++)
        add_verdict(l, t, sources, &row[i]);
    close_table(l, t, "Checks");
}

/* "F1 share of the rating: 80 % [3]" */
static void add_assumption(struct leaf *l, struct rich *r,
                           struct cited *sources,
                           const struct assumption *one) {
    struct arena *a = l->composer.arena;
    struct type type = l->style.least;
    if (r->count > 0)
        leaf_add(l, r, type, FACE_REGULAR, "; ");
    add_block(l, r, one->block);
    leaf_add(
        l, r, type, FACE_REGULAR,
        arena_printf(a, "%s%s: ", one->block == NULL ? "" : " ", one->what));
    leaf_add_value(l, r, type, FACE_BOLD, one->value);
    if ((one->variants & l->applies) != l->applies)
        leaf_add(l, r, type, FACE_REGULAR,
                 arena_printf(a, ", %s", names_of(l, one->variants)));
    leaf_add(l, r, type, FACE_REGULAR, cite(l, sources, one->source));
}

static void set_assumptions(struct leaf *l, struct cited *sources) {
    const struct assumption *list;
    size_t count = values_assumptions(l->values, &list);
    struct rich all = {0};
    for (size_t i = 0; i < count; i++)
        if ((list[i].variants & l->applies) != 0)
            add_assumption(l, &all, sources, &list[i]);
    if (all.count == 0)
        return;
    set_title(l, "Not stated, so assumed");
    flow_paragraph(&l->flow, &all, 0, leaf_width(l), l->style.least,
                   l->guide->root->at);
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
    return l->findings->verdict_count > 0 || l->findings->waiver_count > 0 ||
           values_assumptions(l->values, &list) > 0 || trace_any(l);
}

void annex_set(struct leaf *l) {
    struct cited sources = {0};
    struct columns small = {0};
    set_waivers(l);
    set_verdicts(l, &sources);
    set_assumptions(l, &sources);
    trace_list(l, &sources, &small);
    cite_list(l, &sources, &small, !trace_any(l));
    if (small.count == 0)
        return;
    set_title(l, trace_any(l)
                     ? "Working, in the variant where a margin is least"
                     : "Sources");
    columns_set(&l->flow, &small, 0, leaf_width(l), l->style.least,
                l->guide->root->at);
}

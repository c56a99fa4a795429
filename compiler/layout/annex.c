/* annex.c - the calculations behind the page. */
#include "layout/annex.h"

#include "base/arena.h"
#include "layout/table.h"
#include "layout/trace.h"

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

static bool same_text(const char *a, const char *b) {
    return text_equal(text_of(a), text_of(b));
}

/* The same check of the same block, in other variants. */
static bool same_check(const struct verdict *a, const struct verdict *b) {
    return a->block == b->block && same_text(a->what, b->what) &&
           same_text(a->source, b->source);
}

static bool is_first(const struct leaf *l, size_t index) {
    const struct verdict *list = l->findings->verdict;
    for (size_t i = 0; i < index; i++)
        if ((list[i].variants & l->applies) != 0 &&
            same_check(&list[i], &list[index]))
            return false;
    return true;
}

/* Names that stay on one line, so that the lines of a row stay level. */
static const char *unbroken(struct leaf *l, variant_set s) {
    struct buf b = buf_in(l->composer.arena);
    if ((s & l->applies) == l->applies)
        return "all";
    for (const char *c =
             values_variant_names(l->values, l->composer.arena, s & l->applies);
         *c != '\0'; c++) {
        if (*c == ' ')
            buf_puts(&b, "\xC2\xA0");
        else
            buf_add(&b, c, 1);
    }
    return buf_cstr(&b);
}

/* A line in each of the four columns of figures. */
static void add_verdict(struct leaf *l, struct table_row *row,
                        const struct verdict *v) {
    bool more = row->cell[2].count > 0;
    for (size_t k = 2; more && k < 6; k++)
        rich_line_end(l->composer.arena, &row->cell[k]);
    add_figure(l, &row->cell[2], v->value);
    add_figure(l, &row->cell[3], v->limit);
    add_figure(l, &row->cell[4], v->overridden ? "set aside" : v->margin);
    add_figure(l, &row->cell[5], unbroken(l, v->variants));
}

static void set_verdicts(struct leaf *l) {
    static const char *const heads[] = {"block",  "check", "value", "limit",
                                        "margin", "for",   "basis"};
    const struct verdict *list = l->findings->verdict;
    struct table *t = open_table(l, "Checks", heads, 7);
    for (size_t i = 0; i < l->findings->verdict_count; i++) {
        const struct verdict *v = &list[i];
        if ((v->variants & l->applies) == 0 || !is_first(l, i))
            continue;
        struct table_row *row =
            table_add(l->composer.arena, t,
                      v->block == NULL ? l->guide->root->at : v->block->at);
        add_block(l, &row->cell[0], v->block);
        add_words(l, &row->cell[1], v->what);
        add_words(l, &row->cell[6], v->source);
        for (size_t k = i; k < l->findings->verdict_count; k++)
            if ((list[k].variants & l->applies) != 0 && same_check(v, &list[k]))
                add_verdict(l, row, &list[k]);
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
    return l->findings->verdict_count > 0 || l->findings->waiver_count > 0 ||
           values_assumptions(l->values, &list) > 0 || trace_any(l);
}

void annex_set(struct leaf *l) {
    set_waivers(l);
    set_verdicts(l);
    set_assumptions(l);
    trace_set(l);
}

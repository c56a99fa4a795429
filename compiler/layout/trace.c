/* trace.c - how each computed figure came about, and from which source.
 *
 * A block is worked in one variant, so that each line goes on with the figures
 * of the line above: the variant that comes nearest to a limit. What was not
 * computed stands in the tables of the guide and has no line here. */
#include "layout/trace.h"

#include "base/arena.h"
#include "source/namesake.h"

#include <string.h>

static bool has_workings(enum kind_id id) {
    return id == KIND_WIRE || id == KIND_FUSE || id == KIND_TORQUE;
}

static bool is_traced(const struct block *b) {
    return has_workings(b->kind->id) && b->node != NULL && b->name.len > 0;
}

static size_t first_of(variant_set s) {
    size_t i = 0;
    while (i < 63 && (s >> i & 1) == 0)
        i++;
    return i;
}

/* Where the block's tightest check is; the first variant when it has none. */
static size_t tightest_variant(const struct leaf *l, const struct block *b) {
    const struct verdict *worst = NULL;
    for (size_t i = 0; i < l->findings->verdict_count; i++) {
        const struct verdict *v = &l->findings->verdict[i];
        if (v->block == b && (v->variants & l->applies) != 0 &&
            (worst == NULL || v->slack < worst->slack))
            worst = v;
    }
    return first_of(worst == NULL ? l->applies : worst->variants & l->applies);
}

static bool same_text(const char *a, const char *b) {
    return text_equal(text_of(a), text_of(b));
}

static bool same_line(const struct working *a, const struct working *b) {
    return same_text(a->what, b->what) && same_text(a->formula, b->formula) &&
           same_text(a->numbers, b->numbers) && same_text(a->result, b->result);
}

/* The block's working is the same in every variant. */
static bool is_common(struct leaf *l, const struct block *b, size_t variant) {
    const struct variant *all;
    const struct working *mine, *other;
    struct arena *a = l->composer.arena;
    size_t variants = values_variants(l->values, &all);
    size_t count = values_working(l->values, a, b, variant, &mine);
    for (size_t i = 0; i < variants; i++) {
        if ((l->applies >> i & 1) == 0)
            continue;
        if (values_working(l->values, a, b, i, &other) != count)
            return false;
        for (size_t k = 0; k < count; k++)
            if (!same_line(&mine[k], &other[k]))
                return false;
    }
    return true;
}

static bool is_text(const char *text) {
    return text != NULL && text[0] != '\0';
}

/* "feed, mark 2: " before the first line of the block. */
static void add_title(struct leaf *l, struct rich *r, const struct block *b,
                      size_t variant) {
    struct arena *a = l->composer.arena;
    const char *names =
        is_common(l, b, variant)
            ? ""
            : values_variant_names(l->values, a, (variant_set)1 << variant);
    leaf_add(l, r, l->style.least, FACE_BOLD,
             arena_printf(a, "%s%s%s: ", namesake_name(a, l->guide, b),
                          names[0] == '\0' ? "" : ", ", names));
}

/* As a book prints it: I² · R − 1. A line breaks before no sign of equality. */
static const char *as_printed(struct arena *a, const char *formula) {
    struct buf b = buf_in(a);
    for (const char *s = formula; *s != '\0'; s++) {
        if (s[0] == ' ' && (s[1] == '=' || (s > formula && s[-1] == '=')))
            buf_puts(&b, "\xC2\xA0");
        else if (s[0] == '*')
            buf_puts(&b, "·");
        else if (strncmp(s, "- ", 2) == 0)
            buf_puts(&b, "\xE2\x88\x92");
        else if (strncmp(s, "^2", 2) == 0 && s++ != NULL)
            buf_puts(&b, "²");
        else
            buf_add(&b, s, 1);
    }
    return buf_cstr(&b);
}

/* Figures of a block that were put in above: they are not said again. */
struct told {
    struct text list[64];
    size_t count;
};

static bool first_time(struct told *told, struct text t) {
    for (size_t i = 0; i < told->count; i++)
        if (text_equal(told->list[i], t))
            return false;
    if (told->count < sizeof told->list / sizeof told->list[0])
        told->list[told->count++] = t;
    return true;
}

/* "; L = 4.80 m, r = 3.34 mΩ/m" */
static void add_numbers(struct leaf *l, struct rich *r, struct told *told,
                        const char *numbers) {
    struct text rest = text_of(numbers);
    const char *before = "; ";
    for (size_t end = 0; rest.len > 0; rest = text_part(rest, end, rest.len)) {
        end = 0;
        while (end < rest.len &&
               !text_starts(text_part(rest, end, rest.len), ", "))
            end++;
        struct text one = text_part(rest, 0, end);
        end += end < rest.len ? 2 : 0;
        if (!first_time(told, one))
            continue;
        leaf_add(l, r, l->style.least, FACE_REGULAR, before);
        rich_add(l->composer.arena, r, leaf_tone(l->style.least, FACE_REGULAR),
                 one, l->guide->root->at);
        before = ", ";
    }
}

/* What it is and its source, the result, the formula, the figures put in. */
static void add_line(struct leaf *l, struct rich *r, struct cited *sources,
                     struct told *told, const struct working *line,
                     bool likewise) {
    struct arena *a = l->composer.arena;
    struct type type = l->style.least;
    leaf_add(l, r, type, FACE_REGULAR, line->what);
    leaf_add(l, r, type, FACE_REGULAR, cite(l, sources, line->source));
    leaf_add(l, r, type, FACE_REGULAR, ": ");
    leaf_add_value(l, r, type, FACE_BOLD, line->result);
    leaf_add(l, r, type, FACE_REGULAR, " by ");
    leaf_add(l, r, type, FACE_OBLIQUE,
             likewise ? "the same" : as_printed(a, line->formula));
    if (is_text(line->numbers))
        add_numbers(l, r, told, line->numbers);
}

/* A line that rests on no source of its own goes on in the paragraph of the
 * line before, of which it is a share or the like. */
static void add_block(struct leaf *l, struct columns *p, struct cited *sources,
                      const struct block *b) {
    struct arena *a = l->composer.arena;
    const struct working *list;
    struct told told = {.count = 0};
    struct rich *r = NULL;
    size_t variant = tightest_variant(l, b);
    size_t count = values_working(l->values, a, b, variant, &list);
    for (size_t i = 0; i < count; i++) {
        if (!is_text(list[i].formula))
            continue;
        if (r == NULL) {
            r = columns_add(a, p);
            add_title(l, r, b, variant);
        } else if (is_text(list[i].source)) {
            r = columns_add(a, p);
        } else {
            leaf_add(l, r, l->style.least, FACE_REGULAR, "; ");
        }
        add_line(l, r, sources, &told, &list[i],
                 i > 0 && same_text(list[i].formula, list[i - 1].formula));
    }
}

bool trace_any(const struct leaf *l) {
    for (size_t i = 0; i < l->guide->block_count; i++)
        if (is_traced(l->guide->blocks[i]))
            return true;
    return false;
}

void trace_list(struct leaf *l, struct cited *sources, struct columns *p) {
    for (size_t i = 0; i < l->guide->block_count; i++)
        if (is_traced(l->guide->blocks[i]))
            add_block(l, p, sources, l->guide->blocks[i]);
}

/* tally.c - the checks as the annex lists them. */
#include "layout/tally.h"

#include "base/arena.h"
#include "source/tree.h"

#include <stdlib.h>
#include <string.h>

/* A verdict and its place in the list. */
struct told {
    const struct verdict *verdict;
    size_t order;
};

static size_t block_order(const struct verdict *v) {
    return v->block == NULL ? 0 : v->block->index + 1;
}

/* The same check of the same block, in whatever variant, side by side. */
static int by_check(const void *left, const void *right) {
    const struct told *a = left, *b = right;
    size_t x = block_order(a->verdict), y = block_order(b->verdict);
    if (x != y)
        return x < y ? -1 : 1;
    int order = strcmp(a->verdict->what, b->verdict->what);
    return order != 0 ? order : (a->order > b->order) - (a->order < b->order);
}

/* Of the same checks the one with the least margin, where the first stands;
 * NULL in the other places. */
static const struct verdict **
tightest(struct arena *a, const struct findings *f, variant_set applies) {
    const struct verdict **out =
        arena_alloc(a, f->verdict_count + 1, sizeof(*out));
    struct told *all = arena_alloc(a, f->verdict_count + 1, sizeof *all);
    size_t count = 0;
    for (size_t i = 0; i < f->verdict_count; i++)
        if ((f->verdict[i].variants & applies) != 0)
            all[count++] = (struct told){&f->verdict[i], i};
    if (count > 1)
        qsort(all, count, sizeof *all, by_check);
    for (size_t i = 0, first = 0; i < count; i++) {
        bool same =
            i > 0 &&
            block_order(all[i].verdict) == block_order(all[first].verdict) &&
            strcmp(all[i].verdict->what, all[first].verdict->what) == 0;
        first = same ? first : i;
        const struct verdict **worst = &out[all[first].order];
        if (!same || all[i].verdict->slack < (*worst)->slack)
            *worst = all[i].verdict;
    }
    return out;
}

/* What stands before and behind the word in which two texts differ. */
struct frame {
    size_t before, behind; /* bytes */
};

static bool ends_word(char c) {
    return c == ' ' || c == ',' || c == '\0';
}

static bool is_one_word(const char *text, struct frame f) {
    size_t end = strlen(text) - f.behind;
    for (size_t i = f.before; i < end; i++)
        if (ends_word(text[i]))
            return false;
    return end > f.before;
}

/* Whether the texts differ in one word only, and where that stands. */
static bool find_word(const char *left, const char *right, struct frame *f) {
    size_t x = strlen(left), y = strlen(right), least = x < y ? x : y;
    *f = (struct frame){0, 0};
    while (f->before < least && left[f->before] == right[f->before])
        f->before++;
    while (f->before > 0 && left[f->before - 1] != ' ')
        f->before--;
    while (f->behind < least - f->before &&
           left[x - f->behind - 1] == right[y - f->behind - 1])
        f->behind++;
    while (f->behind > 0 && !ends_word(left[x - f->behind]))
        f->behind--;
    return is_one_word(left, *f) && is_one_word(right, *f);
}

static bool same_frame(struct frame a, struct frame b) {
    return a.before == b.before && a.behind == b.behind;
}

static bool same_text(const char *a, const char *b) {
    return text_equal(text_of(a), text_of(b));
}

/* All that the row prints but its words. */
static bool same_figures(const struct verdict *a, const struct verdict *b) {
    return a->part != NULL && b->part != NULL && a->block == b->block &&
           a->variants == b->variants && a->overridden == b->overridden &&
           a->holds == b->holds && a->too_little == b->too_little &&
           same_text(a->rule, b->rule) && same_text(a->value, b->value) &&
           same_text(a->limit, b->limit) && same_text(a->margin, b->margin) &&
           same_text(a->source, b->source);
}

/* The row of list[i], joined by those behind it that it may speak for; these
 * become NULL. */
static struct tally_row join(struct arena *a, const struct verdict **list,
                             size_t count, size_t i) {
    const struct verdict *first = list[i], *last = NULL;
    struct frame frame = {0, 0}, other;
    struct buf names = buf_in(a);
    for (size_t k = i + 1; k < count; k++) {
        const struct verdict *v = list[k];
        if (v == NULL || !same_figures(first, v) ||
            !find_word(first->what, v->what, &other) ||
            (last != NULL && !same_frame(frame, other)))
            continue;
        frame = other;
        const char *name = (last == NULL ? first : last)->what;
        buf_puts(&names, last == NULL ? "" : ", ");
        buf_add(&names, name + frame.before,
                strlen(name) - frame.behind - frame.before);
        last = v;
        list[k] = NULL;
    }
    if (last == NULL)
        return (struct tally_row){first, first->what};
    const char *tail = last->what + strlen(last->what) - frame.behind;
    const char *what = arena_printf(
        a, "%.*seach of %s and %.*s%s", (int)frame.before, first->what,
        buf_cstr(&names), (int)(tail - last->what) - (int)frame.before,
        last->what + frame.before, tail);
    return (struct tally_row){first, what};
}

const struct tally_row *tally_checks(struct arena *a, const struct findings *f,
                                     variant_set applies, size_t *count) {
    const struct verdict **list = tightest(a, f, applies);
    size_t n = f->verdict_count;
    struct tally_row *out = arena_alloc(a, n + 1, sizeof *out);
    *count = 0;
    for (size_t i = 0; i < n; i++) {
        if (list[i] == NULL)
            continue;
        const struct block *block = list[i]->block;
        for (size_t k = i; k < n; k++) {
            if (list[k] == NULL || list[k]->block != block)
                continue;
            out[(*count)++] = join(a, list, n, k);
            list[k] = NULL;
        }
    }
    return out;
}

/* unfilled.c - places that the author left to be filled in.
 *
 * The signs and words are common practice, no source. */
#include "checks/unfilled.h"

#include "base/arena.h"
#include "base/diag.h"
#include "checks/deference.h"
#include "checks/spot.h"
#include "source/kind.h"
#include "source/tree.h"

#include <string.h>

enum { UNIT_MAX = 40 }; /* bytes, more than a unit and its blank take */

struct finder {
    struct compile *c;
    const struct guide *guide;
    bool released;
};

static bool is_blank(char c) {
    return c == ' ' || c == '\n' || c == '\t';
}

/* Signs from `at` on that stand for digits: XX, X.XX, ___, ??. */
static size_t signs(struct text t, size_t at) {
    char sign = t.start[at];
    size_t i = at, count = 0;
    if (sign != 'X' && sign != 'x' && sign != '_' && sign != '?')
        return 0;
    for (; i < t.len && (t.start[i] == sign || t.start[i] == '.'); i++)
        count += t.start[i] == sign;
    while (i > at && t.start[i - 1] == '.')
        i--;
    return count < 2 ? 0 : i - at;
}

/* Whether a unit follows, as it would follow a number. A letter sign must be
 * parted from it: XXL is a size. */
static bool has_unit(struct finder *f, struct text t, size_t at, char sign) {
    struct text behind =
        text_part(t, at, t.len - at > UNIT_MAX ? at + UNIT_MAX : t.len);
    bool parted = at < t.len && is_blank(t.start[at]);
    struct text number = text_of(
        arena_printf(f->c->arena, "1%.*s", (int)behind.len, behind.start));
    struct spot s;
    return (parted || sign == '_' || sign == '?') &&
           spot_next(f->c->arena, number, 0, &s) && s.from == 0;
}

static bool is_word_of_work(struct text word) {
    static const char *const words[] = {"TODO", "TBD", "FIXME"};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (text_is(word, words[i]))
            return true;
    return false;
}

/* The end of the word at `at`, without the signs that close a sentence. */
static size_t word_end(struct text t, size_t at) {
    while (at < t.len && !is_blank(t.start[at]) &&
           memchr(".,;:)!", t.start[at], 6) == NULL)
        at++;
    return at;
}

/* Length of what is to be filled in at `at`, where a word begins; 0: none. */
static size_t unfilled(struct finder *f, struct text t, size_t at) {
    size_t end = word_end(t, at), count = signs(t, at);
    if (is_word_of_work(text_part(t, at, end)))
        return end - at;
    bool asks = count > 0 && t.start[at] == '?' && at + count == end;
    return asks || (count > 0 && has_unit(f, t, at + count, t.start[at]))
               ? count
               : 0;
}

static void report(struct finder *f, struct text said, struct span near,
                   const char *cure) {
    struct span at = place_of(near.src, said);
    bool inside = near.src != NULL && at.end - at.start == said.len;
    diag_add(f->c->diags,
             f->released ? DIAG_UNFILLED_RELEASED : DIAG_UNFILLED_DRAFT,
             inside ? at : near, "'%.*s'; %s", (int)said.len, said.start, cure);
}

/* A line for a pen: Mileage: ____ mi. */
static bool is_behind_colon(struct text t, size_t at) {
    while (at > 0 && is_blank(t.start[at - 1]))
        at--;
    return at > 0 && t.start[at - 1] == ':';
}

static void scan(struct finder *f, struct text t, struct span near) {
    for (size_t at = 0; at < t.len;) {
        bool begins =
            at == 0 || is_blank(t.start[at - 1]) || t.start[at - 1] == '(';
        size_t len = begins ? unfilled(f, t, at) : 0;
        bool line = len > 0 && t.start[at] == '_';
        if (len > 0 && !(line && is_behind_colon(t, at)))
            report(f, text_part(t, at, at + len), near,
                   line ? "write what belongs there; a line for a pen has a "
                          "colon before it"
                        : "write what belongs there");
        at += len > 0 ? len : 1;
    }
}

static void scan_inlines(struct finder *f, const struct inlines *i) {
    for (; i != NULL; i = i->next) {
        if (i->kind == INLINE_TEXT || i->kind == INLINE_CODE)
            scan(f, i->text, i->at);
        scan_inlines(f, i->first);
    }
}

/* What the examples of `bayleaf start` say where only the author knows. */
static void scan_example(struct finder *f, struct text t, struct span near) {
    static const char last[] = " here";
    size_t tail = sizeof last - 1;
    t = text_trim(t);
    if (f->released && text_starts(t, "write ") && t.len > tail &&
        memcmp(t.start + t.len - tail, last, tail) == 0)
        report(f, t, near, "it is what the example says: put your own there");
}

static void scan_block(struct finder *f, const struct block *b) {
    for (size_t i = 0; i < b->entry_count; i++) {
        const struct entry *e = &b->entries[i];
        for (size_t k = 0; k < e->choice_count; k++) {
            scan(f, e->choices[k].text, e->at);
            scan_example(f, e->choices[k].text, e->at);
        }
        for (size_t k = 0; k < e->cell_count; k++)
            for (const struct cell *c = &e->cells[k]; c != NULL; c = c->next)
                scan(f, c->text, c->at);
        scan(f, e->note, e->at);
        scan_example(f, e->note, e->at);
    }
}

void unfilled_find(struct compile *c, const struct guide *g) {
    struct finder f = {c, g, deference_is_released(g)};
    scan_inlines(&f, g->title_text);
    for (size_t i = 0; i < g->node_count; i++) {
        const struct node *n = g->nodes[i];
        scan_inlines(&f, n->text);
        if (n->kind == NODE_VERBATIM)
            scan(&f, n->verbatim, n->at);
        if (n->kind == NODE_BLOCK)
            scan_block(&f, n->block);
    }
}

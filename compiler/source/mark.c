/* mark.c - what stands between braces in running text.
 *
 *   mark  := "{" inside "}"                      on one line
 *   inside:= "for" list | "touches" (list | "nothing" ":" reason)
 *          | "does" list | "hold" | "initial" | "reading" word | "step" word
 *          | "see" word | "defer" words | "shop only" | "owner only"
 *          | expression { "in" unit | "range" | "at" quantity }
 *
 * The words behind an expression are taken off from its end, since `in` is a
 * unit too: {5/16 in} is a length, {5/16 in in mm} a length in millimetres. */
#include "source/mark.h"

#include "base/arena.h"
#include "base/diag.h"
#include "source/entry.h"
#include "source/link.h"
#include "source/stress.h"
#include "source/suggest.h"
#include "stages.h"

#include <ctype.h>
#include <string.h>

enum operand { OPERAND_NONE, OPERAND_WORD, OPERAND_WORDS, OPERAND_LIST };

struct row {
    const char *word;
    enum operand operand;
    bool leads;
    const char *want; /* what is missing behind the word */
};

static const struct row rows[] = {
    [MARK_VALUE] = {NULL, OPERAND_WORDS, false, NULL},
    [MARK_FOR] = {"for", OPERAND_LIST, true, "a variant"},
    [MARK_TOUCHES] = {"touches", OPERAND_LIST, true, "a hazard tag"},
    [MARK_DOES] = {"does", OPERAND_LIST, true, "what the step does"},
    [MARK_HOLD] = {"hold", OPERAND_NONE, true, NULL},
    [MARK_INITIAL] = {"initial", OPERAND_NONE, false, NULL},
    [MARK_READING] = {"reading", OPERAND_WORD, false, "the id of a limit"},
    [MARK_STEP] = {"step", OPERAND_WORD, true, "a name for the step"},
    [MARK_SEE] = {"see", OPERAND_WORD, false, "what to see"},
    [MARK_DEFER] = {"defer", OPERAND_WORDS, true, "who must do it"},
    [MARK_SHOP_ONLY] = {"shop only", OPERAND_NONE, true, NULL},
    [MARK_OWNER_ONLY] = {"owner only", OPERAND_NONE, true, NULL},
};

enum { ROW_COUNT = sizeof rows / sizeof rows[0] };

_Static_assert(ROW_COUNT == MARK_OWNER_ONLY + 1, "each mark has its row");

static bool is_blank(char c) {
    return c == ' ' || c == '\t' || c == '\r' || c == '\n';
}

static bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

bool mark_leads(enum mark_kind kind) {
    return rows[kind].leads;
}

const char *mark_word(enum mark_kind kind) {
    return rows[kind].word;
}

size_t mark_end(struct text text, size_t brace) {
    for (size_t i = brace + 1; i < text.len; i++) {
        if (text.start[i] == '}')
            return i + 1;
        if (text.start[i] == '\n' || text.start[i] == '{')
            return 0;
    }
    return 0;
}

size_t mark_skip(struct text text, size_t brace) {
    if (brace + 1 < text.len && text.start[brace + 1] == '{')
        return brace + 2;
    size_t end = mark_end(text, brace);
    return end > 0 ? end : brace + 1;
}

/* The first word, and what is left behind it. */
static struct text first_word(struct text t, struct text *rest) {
    size_t end = 0;
    while (end < t.len && !is_blank(t.start[end]))
        end++;
    *rest = text_trim(text_part(t, end, t.len));
    return text_part(t, 0, end);
}

/* The last word, and what stands before it. */
static struct text last_word(struct text t, struct text *before) {
    size_t start = t.len;
    while (start > 0 && !is_blank(t.start[start - 1]))
        start--;
    *before = text_trim(text_part(t, 0, start));
    return text_part(t, start, t.len);
}

static bool find_row(struct text inside, enum mark_kind *kind,
                     struct text *rest) {
    for (size_t i = 0; i < ROW_COUNT; i++) {
        if (rows[i].word == NULL)
            continue;
        struct text wanted = text_of(rows[i].word), left = inside;
        bool same = true;
        while (wanted.len > 0 && same) {
            struct text want = first_word(wanted, &wanted);
            struct text have = first_word(left, &left);
            same = text_equal(want, have);
        }
        if (same) {
            *kind = (enum mark_kind)i;
            *rest = left;
            return true;
        }
    }
    return false;
}

static struct span place_in(const struct scope *scope, struct text t) {
    return place_of(scope->src, t);
}

/* {touches nothing: reason} */
static bool split_reason(struct compile *c, struct mark *m,
                         const struct scope *scope) {
    const char *colon = memchr(m->text.start, ':', m->text.len);
    size_t end = colon == NULL ? m->text.len : (size_t)(colon - m->text.start);
    struct text before = text_trim(text_part(m->text, 0, end));
    bool nothing = text_is(before, "nothing");
    if (!nothing && colon == NULL)
        return true;
    if (!nothing) {
        diag_add(c->diags, DIAG_MARK_SURPLUS, m->at,
                 "a reason stands behind 'nothing' only");
        return false;
    }
    if (colon != NULL)
        m->reason = text_trim(text_part(m->text, end + 1, m->text.len));
    if (m->reason.len == 0) {
        diag_add(c->diags, DIAG_MARK_INCOMPLETE, place_in(scope, before),
                 "write {touches nothing: reason}");
        return false;
    }
    m->text = before;
    return true;
}

static bool parse_words(struct compile *c, struct mark *m,
                        const struct scope *scope) {
    const struct row *row = &rows[m->kind];
    if (row->operand == OPERAND_NONE && m->text.len == 0) {
        m->text = (struct text){NULL, 0};
        return true;
    }
    if (row->operand == OPERAND_NONE) {
        diag_add(c->diags, DIAG_MARK_SURPLUS, place_in(scope, m->text),
                 "nothing stands behind '%s'", row->word);
        return false;
    }
    if (m->text.len == 0) {
        diag_add(c->diags, DIAG_MARK_INCOMPLETE, m->at, "'%s' needs %s",
                 row->word, row->want);
        return false;
    }
    struct text rest = {NULL, 0};
    if (row->operand == OPERAND_WORD)
        first_word(m->text, &rest);
    if (rest.len > 0) {
        diag_add(c->diags, DIAG_MARK_SURPLUS, place_in(scope, rest),
                 "one word stands behind '%s'", row->word);
        return false;
    }
    if (m->kind == MARK_TOUCHES && !split_reason(c, m, scope))
        return false;
    return row->operand != OPERAND_LIST ||
           entry_tags(c, scope->src, m->text, &m->list);
}

static bool is_operator(struct text t) {
    return t.len == 0 || strchr("+-*/^()=<>", t.start[0]) != NULL;
}

/* `in UNIT` at the end of *inside, UNIT being a word, or `deg C`. */
static bool take_unit(struct text *inside, struct text *unit) {
    struct text before, earlier, last = last_word(*inside, &before);
    struct text in = last_word(before, &earlier);
    if (text_is(in, "deg")) {
        in = last_word(earlier, &earlier);
        last = text_part(*inside, before.len - 3, inside->len);
    }
    if (!text_is(in, "in") || is_operator(last) || earlier.len == 0)
        return false;
    *unit = last;
    *inside = earlier;
    return true;
}

static bool take_range(struct text *inside) {
    struct text before, last = last_word(*inside, &before);
    if (!text_is(last, "range") || before.len == 0)
        return false;
    *inside = before;
    return true;
}

/* `at QUANTITY`: all that stands behind the last `at`. */
static bool take_supply(struct text *inside, struct text *supply) {
    for (size_t i = inside->len; i-- > 0;) {
        if (i == 0 || i + 3 > inside->len || inside->start[i] != 'a' ||
            inside->start[i + 1] != 't' || !is_blank(inside->start[i + 2]) ||
            !is_blank(inside->start[i - 1]))
            continue;
        *supply = text_trim(text_part(*inside, i + 2, inside->len));
        *inside = text_trim(text_part(*inside, 0, i));
        return supply->len > 0 && inside->len > 0;
    }
    return false;
}

static bool parse_value(struct compile *c, struct mark *m) {
    for (;;) {
        struct text was = {NULL, 0};
        bool again = false, found = true;
        if (take_range(&m->text)) {
            again = m->range;
            m->range = true;
        } else if (take_unit(&m->text, &was)) {
            again = m->unit.start != NULL;
            m->unit = was;
        } else if (take_supply(&m->text, &was)) {
            again = m->supply.start != NULL;
            m->supply = was;
        } else {
            found = false;
        }
        if (again) {
            diag_add(c->diags, DIAG_MARK_SURPLUS, m->at,
                     "'in', 'at' and 'range' stand once each");
            return false;
        }
        if (!found)
            return true;
    }
}

/* {shop-only}, {Owner_Only}: the words of a mark, joined. */
static const char *joined_words(struct text inside) {
    for (size_t i = 0; i < ROW_COUNT; i++) {
        struct text word = text_of(rows[i].word);
        bool same = word.len == inside.len && memchr(word.start, ' ', word.len);
        for (size_t k = 0; same && k < word.len; k++) {
            char c = inside.start[k];
            c = c == '-' || c == '_' ? ' ' : (char)tolower((unsigned char)c);
            same = c == word.start[k];
        }
        if (same)
            return rows[i].word;
    }
    return NULL;
}

/* Two words side by side are no expression: the first was meant to be the word
 * of a mark. A number and its unit do not begin with a letter. */
static bool is_unknown_word(struct compile *c, const struct scope *scope,
                            struct text inside) {
    struct text rest, word = first_word(inside, &rest);
    const char *joined = joined_words(inside);
    if (joined != NULL) {
        diag_add(c->diags, DIAG_MARK_UNKNOWN, place_in(scope, inside),
                 "'%.*s'%s", (int)inside.len, inside.start,
                 suggest(c->arena, inside, text_of(joined)));
        return true;
    }
    if (word.len == 0 || rest.len == 0 || !is_letter(rest.start[0]))
        return false;
    for (size_t i = 0; i < word.len; i++)
        if (!is_letter(word.start[i]) && (unsigned char)word.start[i] < 0x80)
            return false;
    struct text second = first_word(rest, &rest);
    if (text_is(word, "SAE") || text_is(word, "AWG") || text_is(second, "in") ||
        text_is(second, "at") || text_is(second, "range") ||
        text_is(second, "to"))
        return false;
    struct nearest n = nearest_to(word);
    for (size_t i = 0; i < ROW_COUNT; i++)
        if (rows[i].word != NULL)
            nearest_offer(&n, text_of(rows[i].word));
    diag_add(c->diags, DIAG_MARK_UNKNOWN, place_in(scope, word), "'%.*s'%s",
             (int)word.len, word.start,
             suggest(c->arena, word, (struct text){n.best, n.best_len}));
    return true;
}

struct mark *mark_parse(struct compile *c, const struct scope *scope,
                        struct text braced) {
    struct span at = place_in(scope, braced);
    struct text inside = text_trim(text_part(braced, 1, braced.len - 1));
    if (inside.len == 0) {
        diag_add(c->diags, DIAG_MARK_EMPTY, at,
                 "write a value or a mark, or '{{' for a brace");
        return NULL;
    }
    struct mark *m = arena_alloc(c->arena, 1, sizeof *m);
    m->at = at;
    m->scope = scope;
    m->kind = MARK_VALUE;
    m->text = inside;
    if (find_row(inside, &m->kind, &m->text))
        return parse_words(c, m, scope) ? m : NULL;
    if (is_unknown_word(c, scope, inside))
        return NULL;
    return parse_value(c, m) ? m : NULL;
}

void mark_stray(struct compile *c, struct span at) {
    diag_add(c->diags, DIAG_MARK_STRAY, at,
             "it closes nothing; '}}' is a brace");
}

struct prose { /* inlines in the making */
    struct compile *c;
    const struct scope *scope;
    struct inlines **end;
};

static struct inlines *add_inline(struct prose *p, enum inline_kind kind,
                                  struct text text) {
    struct inlines *i = arena_alloc(p->c->arena, 1, sizeof *i);
    i->kind = kind;
    i->text = text;
    i->at = place_in(p->scope, text);
    *p->end = i;
    p->end = &i->next;
    return i;
}

static void add_text(struct prose *p, struct text text) {
    if (text.len > 0)
        add_inline(p, INLINE_TEXT, text);
}

void mark_misplaced(struct compile *c, const struct mark *m) {
    diag_add(c->diags, DIAG_MARK_MISPLACED, m->at,
             "'%s' stands at the start of a heading, paragraph or step%s",
             mark_word(m->kind),
             m->kind == MARK_STEP ? "; to point at one write {step NAME} there "
                                    "and {see NAME} here"
                                  : "");
}

static bool add_mark(struct prose *p, struct text braced) {
    struct mark *m = mark_parse(p->c, p->scope, braced);
    if (m == NULL)
        return false;
    if (mark_leads(m->kind)) {
        mark_misplaced(p->c, m);
        return false;
    }
    add_inline(p, INLINE_MARK, (struct text){braced.start, 0})->mark = m;
    return true;
}

/* Between two marks: `{{` and `}}` stand for one brace each. *open counts those
 * that print and are not closed. */
static bool add_plain(struct prose *p, struct text text, size_t *open) {
    bool good = true;
    size_t from = 0;
    for (size_t i = 0; i < text.len; i++) {
        char c = text.start[i];
        if (c != '{' && c != '}')
            continue;
        bool twice = i + 1 < text.len && text.start[i + 1] == c;
        if (c == '}' && !twice && *open == 0) {
            mark_stray(p->c, place_in(p->scope, text_part(text, i, i + 1)));
            good = false;
        }
        *open = c == '{' ? *open + 1 : *open - (*open > 0);
        if (!twice)
            continue;
        add_text(p, text_part(text, from, i + 1));
        from = ++i + 1;
    }
    add_text(p, text_part(text, from, text.len));
    return good;
}

bool mark_prose(struct compile *c, const struct scope *scope, struct text text,
                struct inlines **out) {
    *out = NULL;
    if (link_refuse_in(c, scope->src, text) ||
        stress_refuse_in(c, scope->src, text))
        return false;
    struct prose p = {c, scope, out};
    bool good = true;
    size_t from = 0, i = 0, open = 0;
    while (i < text.len) {
        bool twice = text.start[i] == '{' && i + 1 < text.len &&
                     text.start[i + 1] == '{';
        if (text.start[i] != '{' || twice) {
            i += twice ? 2 : 1;
            continue;
        }
        size_t end = mark_end(text, i);
        if (end == 0) {
            diag_add(c->diags, DIAG_MARK_OPEN,
                     place_in(scope, text_part(text, i, i + 1)),
                     "close it with '}' on the same line; '{{' is a brace");
            return false;
        }
        good = add_plain(&p, text_part(text, from, i), &open) && good;
        good = add_mark(&p, text_part(text, i, end)) && good;
        from = i = end;
    }
    return add_plain(&p, text_part(text, from, text.len), &open) && good;
}

/* spoken.c - the words of a step, and phrases found in them. */
#include "checks/spoken.h"

#include "base/arena.h"
#include "base/list.h"
#include "source/kind.h"
#include "source/tree.h"

#include <stdbool.h>
#include <stdint.h>

enum { GAP_MAX = 3 };

struct speaker {
    struct arena *arena;
    struct spoken said;
    size_t sentence;
    bool ended; /* a full stop stands before what comes */
};

static bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
           (c >= '0' && c <= '9') || (unsigned char)c >= 0x80;
}

static void add(struct speaker *s, struct text text, struct span at) {
    struct spoken *said = &s->said;
    said->word = list_grown(s->arena, said->word, said->count, &said->room,
                            sizeof *said->word);
    if (s->ended && said->count > 0)
        s->sentence++;
    s->ended = false;
    said->word[said->count++] = (struct spoken_word){text, at, s->sentence};
}

static bool ends_sentence(struct text t, size_t i) {
    char c = t.start[i];
    return (c == '.' || c == '!' || c == '?' || c == ';') &&
           (i + 1 == t.len || t.start[i + 1] == ' ');
}

/* A hyphen or an apostrophe inside a word belongs to it. */
static bool is_inside(struct text t, size_t i) {
    return (t.start[i] == '-' || t.start[i] == '\'' || t.start[i] == '.') &&
           i + 1 < t.len && is_letter(t.start[i + 1]);
}

static void add_text(struct speaker *s, const struct source *src,
                     struct text t) {
    for (size_t i = 0; i < t.len;) {
        if (!is_letter(t.start[i])) {
            s->ended = s->ended || ends_sentence(t, i);
            i++;
            continue;
        }
        size_t from = i;
        while (i < t.len && (is_letter(t.start[i]) || is_inside(t, i)))
            i++;
        struct text word = text_part(t, from, i);
        add(s, word, place_of(src, word));
    }
}

static void add_inlines(struct speaker *s, const struct source *src,
                        const struct inlines *i) {
    for (; i != NULL; i = i->next) {
        if (i->kind == INLINE_TEXT)
            add_text(s, src, i->text);
        if (i->kind == INLINE_MARK && i->mark->kind == MARK_VALUE)
            add(s, (struct text){NULL, 0}, i->at);
        add_inlines(s, src, i->first);
    }
}

struct spoken spoken_of_step(struct arena *a, const struct guide *g,
                             const struct node *step, bool all) {
    struct speaker s = {.arena = a};
    for (size_t i = step->index; i < g->node_count; i++) {
        const struct node *n = g->nodes[i], *up = n;
        while (up != NULL && up != step)
            up = up->parent;
        if (up == NULL)
            break;
        if (n->text == NULL || (!all && tree_step(n) != step))
            continue;
        add_inlines(&s, n->scope->src, n->text);
        s.ended = true;
    }
    return s.said;
}

struct spoken spoken_of_text(struct arena *a, const struct source *src,
                             const struct inlines *text) {
    struct speaker s = {.arena = a};
    add_inlines(&s, src, text);
    return s.said;
}

static char small(char c) {
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

static bool same(struct text a, struct text b) {
    if (a.len != b.len)
        return false;
    for (size_t i = 0; i < a.len; i++)
        if (small(a.start[i]) != small(b.start[i]))
            return false;
    return true;
}

bool spoken_is(struct text word, struct text wanted) {
    static const char *const endings[] = {"", "s", "es", "d", "ed", "ing"};
    if (word.len < wanted.len || wanted.len == 0 ||
        !same(text_part(word, 0, wanted.len), wanted))
        return false;
    struct text rest = text_part(word, wanted.len, word.len);
    for (size_t i = 0; i < sizeof endings / sizeof endings[0]; i++)
        if (same(rest, text_of(endings[i])))
            return true;
    return false;
}

/* `#`: a value, right behind the word before it. */
static bool is_value(struct text wanted) {
    return text_is(wanted, "#");
}

static bool is_one_of(struct text word, struct text wanted) {
    struct text rest = wanted, one;
    if (is_value(wanted))
        return word.len == 0;
    while (text_next_part(&rest, '|', &one))
        if (spoken_is(word, one))
            return true;
    return false;
}

/* Index of the last word where the phrase begins at word `at`; SIZE_MAX. */
static size_t match(const struct spoken *s, struct text phrase, size_t at) {
    size_t last = SIZE_MAX, next = at;
    struct text rest = phrase, wanted;
    while (text_next_part(&rest, ' ', &wanted)) {
        if (wanted.len == 0)
            continue;
        bool close = is_value(wanted) || text_starts(wanted, "+");
        if (text_starts(wanted, "+"))
            wanted = text_part(wanted, 1, wanted.len);
        size_t end = last == SIZE_MAX ? at + 1
                     : close          ? last + 2
                                      : last + GAP_MAX + 2;
        while (next < s->count && next < end &&
               (s->word[next].sentence != s->word[at].sentence ||
                !is_one_of(s->word[next].text, wanted)))
            next++;
        if (next >= s->count || next >= end)
            return SIZE_MAX;
        last = next++;
    }
    return last;
}

/* Five bits of a letter, one of 32 flags. */
static uint32_t flag_of(struct text word) {
    return word.len == 0 ? 0 : (uint32_t)1 << (small(word.start[0]) & 31);
}

/* Of the letters that the phrase may begin with: hardly any word of a text
 * does, and the others need no closer look. */
uint32_t spoken_beginnings(struct text phrase) {
    struct text rest = phrase, first = {NULL, 0}, one;
    uint32_t flags = 0;
    while (first.len == 0 && text_next_part(&rest, ' ', &first))
        continue;
    if (text_starts(first, "+")) /* nothing stands before it */
        first = text_part(first, 1, first.len);
    while (text_next_part(&first, '|', &one))
        flags |= flag_of(one);
    return flags;
}

size_t spoken_find(const struct spoken *s, struct text phrase) {
    return spoken_find_from(s, phrase, spoken_beginnings(phrase));
}

size_t spoken_find_from(const struct spoken *s, struct text phrase,
                        uint32_t flags) {
    for (size_t i = 0; i < s->count; i++)
        if ((flag_of(s->word[i].text) & flags) != 0 &&
            match(s, phrase, i) != SIZE_MAX)
            return i;
    return SIZE_MAX;
}

size_t spoken_command(const struct spoken *s, struct text phrase) {
    uint32_t flags = spoken_beginnings(phrase);
    for (size_t i = 0; i < s->count; i++) {
        if ((flag_of(s->word[i].text) & flags) == 0)
            continue;
        const struct spoken_word *before = i == 0 ? NULL : &s->word[i - 1];
        bool begins = before == NULL ||
                      before->sentence != s->word[i].sentence ||
                      same(before->text, text_of("and")) ||
                      same(before->text, text_of("then"));
        if (begins && match(s, phrase, i) != SIZE_MAX)
            return i;
    }
    return SIZE_MAX;
}

struct span spoken_place(const struct spoken *s, struct text phrase) {
    size_t from = spoken_find(s, phrase);
    struct span at = s->word[from].at;
    const struct span *end = &s->word[match(s, phrase, from)].at;
    if (end->src == at.src && end->end > at.end)
        at.end = end->end;
    return at;
}

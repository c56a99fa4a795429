/* circuit_read.c - lines of a `circuit` block -> supplies, states, paths.
 *
 *   line    := "supply:" NAME [word] { "," NAME [word] }
 *            | "state:" name { "," NAME position }
 *            | "from" point | "to" point
 *            | part NAME [words { "," words }] [string] [variants]
 *   words   := text | text variants { text variants }
 *
 * How far a line is indented means nothing: one element a line. A line with
 * words that differ by variant makes an element for each alternative; variants
 * at its end are those that it is for at all. */
#include "source/circuit_read.h"

#include "base/arena.h"
#include "base/diag.h"
#include "base/list.h"
#include "source/circuit_state.h"
#include "source/circuit_word.h"
#include "source/entry.h"
#include "source/suggest.h"
#include "stages.h"

#include <string.h>

struct work {
    struct compile *c;
    const struct scope *scope;
    struct circuit *circuit;
    size_t element_room, branch_room, point_room;
    long last;      /* the point that the path has reached; -1: no path */
    size_t pending; /* elements since then */
    bool begins;
    struct text from_line; /* the `from` that opened the path */
};

/* "'WHAT'WORDS CURE" */
static void fail(struct work *w, enum diag_id id, struct text at,
                 const char *words, const char *cure) {
    diag_add(w->c->diags, id, place_of(w->scope->src, at), "'%.*s'%s%s",
             (int)at.len, at.start, words, cure);
    w->circuit->bad = true;
}

static bool is_blank(char c) {
    return c == ' ' || c == '\t';
}

static struct text first_word(struct text *rest) {
    size_t end = 0;
    while (end < rest->len && !is_blank(rest->start[end]))
        end++;
    struct text word = text_part(*rest, 0, end);
    *rest = text_trim(text_part(*rest, end, rest->len));
    return word;
}

/* "battery +" to "battery.plus". */
static struct text id_of(struct arena *a, struct text name) {
    struct buf id = buf_in(a);
    struct text squeezed = text_squeezed(a, name);
    for (size_t i = 0; i < squeezed.len; i++)
        buf_puts(&id, squeezed.start[i] == ' '   ? "."
                      : squeezed.start[i] == '+' ? "plus"
                      : squeezed.start[i] == '-'
                          ? "minus"
                          : (char[]){squeezed.start[i], '\0'});
    return buf_as_text(&id);
}

/* "battery + rubbish": words behind the post of a supply. */
static bool is_more_than_post(struct text name, struct text supply) {
    struct text post = first_word(&name);
    struct text sign = first_word(&name);
    return text_equal(post, supply) && name.len > 0 &&
           (text_is(sign, "+") || text_is(sign, "-"));
}

/* Which post of which supply a point's name tells. */
static void find_post(struct work *w, struct circuit_point *p) {
    struct text t = p->name;
    p->supply = CIRCUIT_NONE;
    for (size_t i = 0; i < w->circuit->supply_count; i++)
        if (text_equal(t, w->circuit->supply[i].name))
            fail(w, DIAG_CIRCUIT_SUPPLY, t, " is a supply, not a point; ",
                 arena_printf(w->c->arena,
                              "its posts are '%.*s +' and '%.*s -'", (int)t.len,
                              t.start, (int)t.len, t.start));
        else if (is_more_than_post(t, w->circuit->supply[i].name))
            fail(w, DIAG_CIRCUIT_PATH, t,
                 " says more than a post; a point is named alone, and one "
                 "element stands in a line",
                 "");
    if (t.len < 2 || (t.start[t.len - 1] != '+' && t.start[t.len - 1] != '-'))
        return;
    p->minus = t.start[t.len - 1] == '-';
    struct text base = text_trim(text_part(t, 0, t.len - 1));
    for (size_t i = 0; i < w->circuit->supply_count; i++)
        if (text_equal(base, w->circuit->supply[i].name))
            p->supply = (int)i;
    if (p->supply == CIRCUIT_NONE && w->circuit->supply_count > 0)
        fail(w, DIAG_CIRCUIT_SUPPLY, t,
             " is the post of no supply of this circuit; ",
             arena_printf(w->c->arena, "above the paths stands 'supply: %.*s'",
                          (int)w->circuit->supply[0].name.len,
                          w->circuit->supply[0].name.start));
}

static size_t point_of(struct work *w, struct text name) {
    struct circuit *c = w->circuit;
    struct text id = id_of(w->c->arena, name);
    for (size_t i = 0; i < c->point_count; i++)
        if (text_equal(c->point[i].id, id))
            return i;
    c->point = list_grown(w->c->arena, c->point, c->point_count, &w->point_room,
                          sizeof *c->point);
    struct circuit_point *p = &c->point[c->point_count];
    *p = (struct circuit_point){
        .name = name, .id = id, .at = place_of(w->scope->src, name)};
    find_post(w, p);
    return c->point_count++;
}

static void end_path(struct work *w) {
    if (w->last >= 0 && w->pending > 0)
        fail(w, DIAG_CIRCUIT_PATH, w->from_line, " leads nowhere; ",
             "close the path with 'to POINT'");
    else if (w->last >= 0 && w->begins)
        fail(w, DIAG_CIRCUIT_PATH, w->from_line, " is followed by nothing; ",
             "write the elements, then 'to POINT'");
    w->last = -1;
    w->pending = 0;
}

static void read_from(struct work *w, struct text line, struct text name) {
    end_path(w);
    w->from_line = line;
    w->begins = true;
    if (name.len == 0)
        fail(w, DIAG_CIRCUIT_PATH, line, " names no point", "");
    else
        w->last = (long)point_of(w, name);
}

static void read_to(struct work *w, struct text line, struct text name) {
    struct circuit *c = w->circuit;
    if (name.len == 0 || w->last < 0) {
        fail(w, DIAG_CIRCUIT_PATH, line,
             name.len == 0 ? " names no point"
                           : " has no 'from POINT' above it",
             "");
        return;
    }
    size_t to = point_of(w, name);
    if (w->pending == 0) {
        fail(w, DIAG_CIRCUIT_PATH, line, " has nothing before it; ",
             "write what joins the two points");
    } else if ((long)to == w->last) {
        fail(w, DIAG_CIRCUIT_POINT_TWICE, name,
             " stands at both ends of a path; ",
             "give one end a name of its own");
    } else {
        c->branch = list_grown(w->c->arena, c->branch, c->branch_count,
                               &w->branch_room, sizeof *c->branch);
        c->branch[c->branch_count++] = (struct circuit_branch){
            (size_t)w->last, to, c->element_count - w->pending, w->pending,
            w->begins};
    }
    w->last = (long)to;
    w->pending = 0;
    w->begins = false;
}

/* Whether the words, or the last of them, differ by variant: two lists stand
 * behind the last comma that is in no list, and the last one behind a word. */
static bool ends_with_choice(struct text t) {
    size_t lists = 0;
    bool inside = false;
    for (size_t i = 0; i < t.len; i++) {
        struct text before = text_trim(text_part(t, 0, i));
        if (t.start[i] == '[' && before.len > 0 &&
            (before.start[before.len - 1] == ']' ||
             before.start[before.len - 1] == '"'))
            lists = 0;
        lists += t.start[i] == '[';
        inside = t.start[i] == '[' || (inside && t.start[i] != ']');
        if (t.start[i] == ',' && !inside)
            lists = 0;
    }
    return lists > 1;
}

/* The variants of the whole line, at its end. */
static void take_tags(struct work *w, struct text *rest,
                      struct circuit_element *e) {
    size_t n = rest->len, open = n;
    if (n == 0 || rest->start[n - 1] != ']' || ends_with_choice(*rest))
        return;
    while (open > 0 && rest->start[open - 1] != '[')
        open--;
    struct text list =
        open == 0 ? *rest : text_trim(text_part(*rest, open, n - 1));
    if (open == 0 || list.len == 0)
        fail(w, DIAG_LIST_FORM, *rest, ": name the variants", "");
    else if (!entry_tags(w->c, w->scope->src, list, &e->tags))
        w->circuit->bad = true;
    *rest = text_trim(text_part(*rest, 0, open == 0 ? 0 : open - 1));
}

/* The list of variants at the end, and the source in quotes before it, or
 * behind it. */
static void take_end(struct work *w, struct text *rest,
                     struct circuit_element *e) {
    take_tags(w, rest, e);
    size_t n = rest->len;
    if (n < 2 || rest->start[n - 1] != '"')
        return;
    size_t open = n - 1;
    while (open > 0 && rest->start[open - 1] != '"')
        open--;
    if (open == 0 || (open > 1 && rest->start[open - 2] >= '0' &&
                      rest->start[open - 2] <= '9'))
        return; /* an inch sign */
    e->note = text_part(*rest, open, n - 1);
    *rest = text_trim(text_part(*rest, 0, open - 1));
    if (e->tags.count == 0)
        take_tags(w, rest, e);
}

/* Terminals come first, a colour anywhere; the rest is for values/. */
static void take_word(struct work *w, struct circuit_element *e, bool first,
                      struct text word, size_t *room) {
    bool pair = first && e->part != CIRCUIT_WIRE &&
                circuit_word_pair(word, e->terminal);
    const char *cure;
    if (pair && !circuit_word_fits(e->part, e->terminal, &cure))
        fail(w, DIAG_CIRCUIT_TERMINAL, word, "; ", cure);
    if (pair || (e->part == CIRCUIT_WIRE && e->colour[0].len == 0 &&
                 circuit_word_colour(word, e->colour)))
        return;
    e->word =
        list_grown(w->c->arena, e->word, e->word_count, room, sizeof *e->word);
    e->word[e->word_count++] = word;
}

/* What stands up to the next comma that is in no list of variants. */
static bool next_words(const struct circuit_element *e, bool first,
                       struct text *rest, struct text *part) {
    size_t end = 0, blank = 0;
    bool inside = false;
    struct text pair[2];
    if (rest->len == 0)
        return false;
    for (; end < rest->len && (inside || rest->start[end] != ','); end++)
        inside = rest->start[end] == '[' || (inside && rest->start[end] != ']');
    size_t skip = end + (end < rest->len);
    *part = text_trim(text_part(*rest, 0, end));
    while (blank < part->len && !is_blank(part->start[blank]))
        blank++;
    /* `K1 30-87 40 A`: no comma is needed behind the terminals. */
    if (first && e->part != CIRCUIT_WIRE && blank < part->len &&
        circuit_word_pair(text_part(*part, 0, blank), pair)) {
        skip = (size_t)(part->start - rest->start) + blank;
        *part = text_part(*part, 0, blank);
    }
    *rest = text_trim(text_part(*rest, skip, rest->len));
    return true;
}

static bool is_choice(struct text part) {
    return part.len > 0 && memchr(part.start, '[', part.len) != NULL;
}

static bool same_tags(const struct entry *a, const struct entry *b) {
    if (a->choice_count != b->choice_count)
        return false;
    for (size_t i = 0; i < a->choice_count; i++) {
        const struct tags *p = &a->choices[i].tags, *q = &b->choices[i].tags;
        if (p->count != q->count)
            return false;
        for (size_t k = 0; k < p->count; k++)
            if (!text_equal(p->tag[k], q->tag[k]))
                return false;
    }
    return true;
}

static bool has_tag(const struct tags *t, struct text tag) {
    for (size_t i = 0; i < t->count; i++)
        if (text_equal(t->tag[i], tag))
            return true;
    return false;
}

/* Variants of the line that no alternative names. */
static struct tags rest_of(struct work *w, const struct tags *line,
                           const struct entry *by) {
    struct tags rest = {.at = line->at};
    rest.tag = arena_alloc(w->c->arena, line->count + 1, sizeof *rest.tag);
    for (size_t i = 0; i < line->count; i++) {
        bool named = false;
        for (size_t k = 0; k < by->choice_count && !named; k++)
            named = has_tag(&by->choices[k].tags, line->tag[i]);
        if (!named)
            rest.tag[rest.count++] = line->tag[i];
    }
    return rest;
}

/* The words differ among the variants of a line that is for some only: each of
 * those has its alternative, `others` are the rest of them. An empty one behind
 * them says that the line has nothing for the variants which it is not for. */
static bool keep_to_line(struct work *w, const struct tags *line,
                         struct text part, struct entry *by) {
    struct tags rest = rest_of(w, line, by);
    bool others = false;
    for (size_t i = 0; i < by->choice_count; i++) {
        struct tags *t = &by->choices[i].tags;
        for (size_t k = 0; k < t->count; k++)
            if (!text_is(t->tag[k], "others") && !has_tag(line, t->tag[k])) {
                fail(w, DIAG_CIRCUIT_CHOICE, t->tag[k],
                     " is not in the list at the end of the line; ",
                     "name it there as well, or leave it out");
                return false;
            }
        if (t->count == 1 && text_is(t->tag[0], "others") && rest.count > 0) {
            others = true;
            *t = rest;
        }
    }
    if (rest.count > 0 && !others) {
        fail(w, DIAG_CIRCUIT_CHOICE, part, ": nothing is said for ",
             arena_printf(w->c->arena,
                          "%.*s, which the line is for; add it, or [others]",
                          (int)rest.tag[0].len, rest.tag[0].start));
        return false;
    }
    size_t n = by->choice_count;
    struct choice *all = arena_alloc(w->c->arena, n + 1, sizeof *all);
    memcpy(all, by->choices, n * sizeof *all);
    all[n].tags = (struct tags){.count = 1, .at = line->at, .among = by};
    all[n].tags.tag = arena_alloc(w->c->arena, 1, sizeof *all[n].tags.tag);
    all[n].tags.tag[0] = text_of("others");
    by->choices = all;
    by->choice_count = n + 1;
    return true;
}

/* The alternatives of a line whose words differ by variant; NULL: they do not,
 * or after a message. */
static struct entry *choices_of(struct work *w, const struct circuit_element *e,
                                struct text rest) {
    struct entry *by = NULL;
    struct text part;
    for (bool first = true; next_words(e, first, &rest, &part); first = false) {
        if (!is_choice(part))
            continue;
        struct entry *one = arena_alloc(w->c->arena, 1, sizeof *one);
        *one = (struct entry){.at = e->at, .key = e->name};
        if (!entry_split(w->c, w->scope->src, part, QUOTES_SOURCE, one)) {
            w->circuit->bad = true;
            return NULL;
        }
        if (e->tags.count > 0 && !keep_to_line(w, &e->tags, part, one))
            return NULL;
        if (by != NULL && !same_tags(by, one)) {
            fail(w, DIAG_CIRCUIT_CHOICE, part, ": other variants than before; ",
                 "write a line for each variant");
            return NULL;
        }
        by = by == NULL ? one : by;
    }
    return by;
}

/* `which`: the alternative of words that differ by variant. */
static void take_words(struct work *w, struct circuit_element *e,
                       struct text rest, size_t which) {
    size_t room = 0;
    struct text part;
    for (bool first = true; next_words(e, first, &rest, &part); first = false) {
        struct entry split = {.at = e->at, .key = e->name};
        if (e->choice != NULL && is_choice(part) &&
            entry_split(w->c, w->scope->src, part, QUOTES_SOURCE, &split))
            part = split.choices[which].text;
        if (part.len == 0)
            fail(w, DIAG_LIST_FORM, e->name, ": nothing between two commas",
                 "");
        else
            take_word(w, e, first, part, &room);
    }
}

static bool is_name(struct text t) {
    for (size_t i = 0; i < t.len; i++) {
        char c = t.start[i];
        bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
        if (!letter && (i == 0 || c < '0' || c > '9'))
            return false;
    }
    return t.len > 0;
}

static void check_words(struct work *w, const struct circuit_element *e,
                        struct text line) {
    if (!is_name(e->name))
        fail(w, DIAG_NAME_FORM, e->name.len > 0 ? e->name : line,
             ": an element's name is letters and digits: F1", "");
    if (e->part == CIRCUIT_CONTACT && e->terminal[0].len == 0)
        fail(w, DIAG_CIRCUIT_TERMINAL, line, " has none; ",
             "write them behind the name: 30-87");
    if (e->part == CIRCUIT_LOAD && e->word_count == 0)
        fail(w, DIAG_VALUE_MISSING, line, " says no load; ",
             "name a block, or write: lamp, 7.6 A at 13.2 V");
    if (e->part == CIRCUIT_WIRE && e->word_count < 2)
        fail(w, DIAG_VALUE_MISSING, line, " lacks size or length; ",
             "write: 12 AWG, 2.6 m, red");
}

/* Another element of the line that `like` is for. */
static void add_element(struct work *w, const struct circuit_element *like) {
    struct circuit *c = w->circuit;
    c->element = list_grown(w->c->arena, c->element, c->element_count,
                            &w->element_room, sizeof *c->element);
    c->element[c->element_count++] = *like;
}

static void read_element(struct work *w, struct text line) {
    struct text rest = line, word = first_word(&rest);
    struct circuit_element e = {.part = CIRCUIT_PARTS,
                                .at = place_of(w->scope->src, line)};
    const char *near = NULL;
    bool known = circuit_word_part(word, &e.part, &near);
    if (!known) {
        fail(w, DIAG_CIRCUIT_ELEMENT_UNKNOWN, word, "",
             suggest(w->c->arena, word, text_of(near)));
        w->pending++; /* said once: not that nothing stands there, too */
    }
    if (w->last < 0)
        fail(w, DIAG_CIRCUIT_PATH, line, " has no 'from POINT' above it", "");
    if (!known) {
        add_element(w, &e);
        return;
    }
    take_end(w, &rest, &e);
    e.name = first_word(&rest);
    e.branch = w->circuit->branch_count; /* the one that its `to` will make */
    e.choice = choices_of(w, &e, rest);
    size_t count = e.choice == NULL ? 1 : e.choice->choice_count;
    count -= e.choice != NULL && e.tags.count > 0; /* keep_to_line() */
    for (size_t i = 0; i < count; i++) {
        struct circuit_element one = e;
        if (e.choice != NULL) {
            one.tags = e.choice->choices[i].tags;
            one.tags.among = e.choice;
        }
        take_words(w, &one, rest, i);
        check_words(w, &one, line);
        add_element(w, &one);
        w->pending += w->last >= 0;
    }
}

static void read_line(struct work *w, struct text line) {
    struct text rest = line, word = first_word(&rest);
    if (text_is(word, "from"))
        read_from(w, line, rest);
    else if (text_is(word, "to"))
        read_to(w, line, rest);
    else if (!text_starts(line, "supply:") && !text_starts(line, "state:"))
        read_element(w, line);
}

enum { LINES_MAX = 5000 };

void circuit_read(struct compile *c, const struct scope *scope, struct block *b,
                  const struct text *line, size_t count) {
    struct circuit *circuit = arena_alloc(c->arena, 1, sizeof *circuit);
    struct work w = {.c = c, .scope = scope, .circuit = circuit, .last = -1};
    b->circuit = circuit;
    if (count > LINES_MAX) {
        diag_add(c->diags, DIAG_CIRCUIT_PATH, b->at, "more than %d lines",
                 (int)LINES_MAX);
        circuit->bad = true;
        count = 0;
    }
    circuit_state_supplies(c, scope, b, line, count);
    for (size_t i = 0; i < count; i++)
        read_line(&w, line[i]);
    end_path(&w);
    if (circuit->branch_count == 0 && !circuit->bad) {
        diag_add(c->diags, DIAG_CIRCUIT_PATH, b->at,
                 "the circuit has none; write: from POINT, elements, to POINT");
        circuit->bad = true;
    }
    circuit_state_names(c, scope, b);
    circuit_state_states(c, scope, b, line, count);
}

/* entry.c - the text behind a colon or an equals sign: alternatives by variant,
 * and the source in quotes.
 *
 *   value := alternative { alternative } [string]
 *   alternative := text [ "[" variant { "," variant } "]" ]
 *
 * A quotation mark straight behind a digit is the inch sign: 12" is a length,
 * and `12" "tape"` a length with its source. */
#include "source/entry.h"

#include "base/arena.h"
#include "base/diag.h"
#include "base/list.h"
#include "source/mark.h"
#include "source/suggest.h"
#include "stages.h"

#include <string.h>

static bool is_blank(char c) {
    return c == ' ' || c == '\t' || c == '\r' || c == '\n';
}

static bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

bool entry_tags(struct compile *c, const struct source *src, struct text list,
                struct tags *out) {
    *out = (struct tags){.at = place_of(src, list)};
    size_t room = 0, from = 0;
    for (size_t i = 0; i <= list.len; i++) {
        if (i < list.len && list.start[i] != ',')
            continue;
        struct text word = text_trim(text_part(list, from, i));
        from = i + 1;
        if (word.len == 0) {
            diag_add(c->diags, DIAG_LIST_FORM, place_of(src, list),
                     "nothing between two commas");
            return false;
        }
        out->tag =
            list_grown(c->arena, out->tag, out->count, &room, sizeof *out->tag);
        out->tag[out->count++] = word;
    }
    return true;
}

struct scan { /* over the value of one entry */
    struct compile *c;
    const struct source *src;
    struct text text;
    enum entry_quotes quotes;
    size_t at;
    size_t from;                     /* start of the alternative at work */
    size_t string_start, string_end; /* the last string; with its quotes */
    struct entry *entry;
    size_t choice_room;
    bool bad;
};

static void report(struct scan *s, enum diag_id id, size_t from, size_t to,
                   const char *why) {
    diag_add(s->c->diags, id, place_of(s->src, text_part(s->text, from, to)),
             "%s", why);
    s->bad = true;
}

static bool opens_string(const struct scan *s) {
    return s->quotes == QUOTES_SOURCE && s->text.start[s->at] == '"' &&
           (s->at == 0 || !is_digit(s->text.start[s->at - 1]));
}

static void skip_string(struct scan *s) {
    size_t start = s->at;
    for (size_t i = start + 1; i < s->text.len; i++)
        if (s->text.start[i] == '"') {
            s->string_start = start;
            s->string_end = s->at = i + 1;
            return;
        }
    report(s, DIAG_STRING_OPEN, start, s->text.len,
           "close it with a quotation mark");
    s->at = s->text.len;
}

static void add_choice(struct scan *s, size_t from, size_t to,
                       struct tags tags) {
    struct entry *e = s->entry;
    struct text text = text_trim(text_part(s->text, from, to));
    if (text.len == 0)
        report(s, DIAG_VALUE_MISSING, from, to < s->text.len ? to + 1 : to,
               tags.count > 0 ? "no value before the variants"
                              : "write a value");
    e->choices = list_grown(s->c->arena, e->choices, e->choice_count,
                            &s->choice_room, sizeof *e->choices);
    e->choices[e->choice_count++] = (struct choice){.text = text, .tags = tags};
}

static void take_tags(struct scan *s) {
    size_t open = s->at, close = open;
    while (close < s->text.len && s->text.start[close] != ']')
        close++;
    if (close == s->text.len) {
        report(s, DIAG_TAGS_OPEN, open, s->text.len,
               "close the list of variants with ']'");
        s->at = s->text.len;
        return;
    }
    struct tags tags;
    struct text list = text_part(s->text, open + 1, close);
    if (text_trim(list).len == 0)
        report(s, DIAG_LIST_FORM, open, close + 1, "name the variants");
    else if (!entry_tags(s->c, s->src, text_trim(list), &tags))
        s->bad = true;
    else
        add_choice(s, s->from, open, tags);
    s->from = s->at = close + 1;
}

/* What stands behind the last list of variants: the source, or the one value of
 * all variants, or a value whose variants were forgotten. */
static void take_rest(struct scan *s) {
    size_t end = s->text.len, from = s->from;
    while (from < end && is_blank(s->text.start[from]))
        from++;
    while (end > from && is_blank(s->text.start[end - 1]))
        end--;
    struct entry *e = s->entry;
    bool string_last = s->string_end == end && s->string_start >= from &&
                       s->string_end > 0 && end > from;
    bool is_value =
        string_last && s->string_start == from && e->choice_count == 0;
    if (string_last && !is_value) {
        e->note = text_part(s->text, s->string_start + 1, end - 1);
        end = s->string_start;
    }
    while (end > from && is_blank(s->text.start[end - 1]))
        end--;
    if (end > from && e->choice_count > 0)
        report(s, DIAG_TAGS_MISSING, from, end,
               "say for which variants: [mark 1], [others]");
    if (end > from || e->choice_count == 0)
        add_choice(s, from, end, (struct tags){0});
}

static bool ends_with_tags(struct text t) {
    return t.len > 0 && t.start[t.len - 1] == ']' &&
           memchr(t.start, '[', t.len) != NULL;
}

bool entry_split(struct compile *c, const struct source *src, struct text value,
                 enum entry_quotes quotes, struct entry *e) {
    struct scan s = {
        .c = c, .src = src, .text = value, .quotes = quotes, .entry = e};
    /* In running text brackets are plain unless it ends with them. */
    if (quotes == QUOTES_PLAIN && !ends_with_tags(value))
        s.at = value.len;
    while (s.at < value.len && !s.bad) {
        if (opens_string(&s))
            skip_string(&s);
        else if (value.start[s.at] == '[')
            take_tags(&s);
        else
            s.at++;
    }
    if (!s.bad)
        take_rest(&s);
    return !s.bad;
}

/* Of running text, all of it slices of the source, what lies within one slice.
 * The marks are the same: a cell is read once. */
static struct inlines *
prose_within(struct compile *c, const struct inlines *prose, struct text part) {
    struct inlines *first = NULL, **end = &first;
    const char *from = part.start, *to = part.start + part.len;
    for (const struct inlines *i = prose; i != NULL; i = i->next) {
        const char *start = i->text.start, *stop = start + i->text.len;
        bool within = i->kind == INLINE_MARK ? start >= from && start < to
                                             : start < to && stop > from;
        if (!within)
            continue;
        struct inlines *copy = arena_alloc(c->arena, 1, sizeof *copy);
        *copy = *i;
        copy->next = NULL;
        if (i->kind != INLINE_MARK) {
            size_t cut = start < from ? (size_t)(from - start) : 0;
            size_t left = stop > to ? (size_t)(to - start) : i->text.len;
            copy->text = text_part(i->text, cut, left);
            copy->at.start += cut;
            copy->at.end = copy->at.start + copy->text.len;
        }
        *end = copy;
        end = &copy->next;
    }
    return first;
}

/* By-variant cells: `2 m [mark 1] 3 m [others]`. */
static bool cell_choices(struct compile *c, const struct scope *scope,
                         struct cell *cell) {
    if (cell->text.len == 0) {
        cell->choices = arena_alloc(c->arena, 1, sizeof *cell->choices);
        cell->choices[0].text = cell->text;
        cell->choice_count = 1;
        return true;
    }
    struct entry *split = arena_alloc(c->arena, 1, sizeof *split);
    split->at = cell->at;
    bool good = entry_split(c, scope->src, cell->text, QUOTES_PLAIN, split);
    cell->choices = split->choices;
    cell->choice_count = split->choice_count;
    for (size_t i = 0; split->choice_count > 1 && i < split->choice_count;
         i++) {
        struct choice *one = &split->choices[i];
        one->prose = prose_within(c, cell->prose, one->text);
        one->tags.among = split; /* for `others` */
    }
    return good;
}

bool entry_cell(struct compile *c, const struct scope *scope, struct text text,
                struct cell *out) {
    *out = (struct cell){.text = text_trim(text)};
    out->at = place_of(scope->src, out->text);
    bool good = mark_prose(c, scope, out->text, &out->prose);
    return cell_choices(c, scope, out) && good;
}

/* Behind the parenthesis that closes the one at `at`, or `at` + 1 where none
 * does. */
static size_t behind_parenthesis(struct text t, size_t at) {
    size_t depth = 0;
    for (size_t i = at; i < t.len; i++) {
        depth += t.start[i] == '(';
        depth -= t.start[i] == ')';
        if (depth == 0)
            return i + 1;
    }
    return at + 1;
}

static bool read_items(struct compile *c, const struct scope *scope,
                       struct choice *choice) {
    struct text t = choice->text;
    size_t room = 0, from = 0;
    bool good = true;
    for (size_t i = 0; i <= t.len; i++) {
        /* Commas in {...} and (...) are its own. */
        while (i < t.len && (t.start[i] == '{' || t.start[i] == '('))
            i = t.start[i] == '{' ? mark_skip(t, i) : behind_parenthesis(t, i);
        if (i < t.len && t.start[i] != ',')
            continue;
        struct text word = text_trim(text_part(t, from, i));
        from = i + 1;
        if (word.len == 0) {
            diag_add(c->diags, DIAG_LIST_FORM, place_of(scope->src, t),
                     "nothing between two commas");
            return false;
        }
        choice->items = list_grown(c->arena, choice->items, choice->item_count,
                                   &room, sizeof *choice->items);
        struct cell *item = &choice->items[choice->item_count++];
        *item = (struct cell){.text = word, .at = place_of(scope->src, word)};
        good = mark_prose(c, scope, word, &item->prose) && good;
    }
    return good;
}

static bool read_choice(struct compile *c, const struct source *src,
                        const char *choices, struct text t) {
    struct nearest n = nearest_to(t);
    struct text squeezed = text_squeezed(c->arena, t);
    for (const char *from = choices;;) {
        const char *bar = strchr(from, '|');
        struct text one = {from,
                           bar == NULL ? strlen(from) : (size_t)(bar - from)};
        if (text_equal(one, squeezed))
            return true;
        nearest_offer(&n, one);
        if (bar == NULL)
            break;
        from = bar + 1;
    }
    struct buf all = buf_in(c->arena);
    for (const char *s = choices; *s != '\0' && n.best == NULL; s++)
        buf_puts(&all, *s == '|' ? ", " : (char[]){*s, '\0'});
    diag_add(c->diags, DIAG_CHOICE_UNKNOWN, place_of(src, t), "'%.*s'%s%s%s",
             (int)t.len, t.start,
             suggest(c->arena, t, (struct text){n.best, n.best_len}),
             all.len > 0 ? "; one of: " : "", buf_cstr(&all));
    return false;
}

/* In a shared file it may be a name: what was passed in is judged later. */
static bool read_count(struct compile *c, const struct scope *scope,
                       struct text t) {
    const struct source *src = scope->src;
    char first = t.len > 0 ? t.start[0] : '\0';
    if (scope->include != NULL &&
        ((first >= 'a' && first <= 'z') || (first >= 'A' && first <= 'Z')))
        return true;
    bool good = t.len > 0 && t.len < 7 && t.start[0] != '0';
    for (size_t i = 0; i < t.len; i++)
        good = good && is_digit(t.start[i]);
    if (!good)
        diag_add(c->diags, DIAG_COUNT_FORM, place_of(src, t),
                 "'%.*s'; write a whole number from 1 to 999999", (int)t.len,
                 t.start);
    return good;
}

/* 24 November 2025, in the Gregorian calendar. */
static bool is_date(struct text t) {
    static const char *const months[] = {
        "January", "February", "March",     "April",   "May",      "June",
        "July",    "August",   "September", "October", "November", "December"};
    static const int days[] = {31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    size_t i = 0;
    int day = 0, year = 0;
    while (i < t.len && is_digit(t.start[i]) && i < 2)
        day = day * 10 + (t.start[i++] - '0');
    if (i == 0 || t.start[0] == '0' || i >= t.len || t.start[i] != ' ')
        return false;
    size_t from = ++i;
    while (i < t.len && t.start[i] != ' ')
        i++;
    struct text month = text_part(t, from, i);
    size_t year_at = i + 1;
    if (t.len != year_at + 4)
        return false;
    for (i = year_at; i < t.len; i++) {
        if (!is_digit(t.start[i]))
            return false;
        year = year * 10 + (t.start[i] - '0');
    }
    bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
    for (size_t m = 0; m < 12; m++)
        if (text_is(month, months[m]))
            return day >= 1 && day <= days[m] - (m == 1 && !leap) &&
                   year >= 1900;
    return false;
}

static bool read_date(struct compile *c, const struct source *src,
                      struct text t) {
    if (is_date(text_squeezed(c->arena, t)))
        return true;
    diag_add(c->diags, DIAG_DATE_FORM, place_of(src, t),
             "'%.*s'; write it as 24 November 2025", (int)t.len, t.start);
    return false;
}

static bool read_one(struct compile *c, const struct scope *scope,
                     const struct setting *setting, struct choice *choice) {
    const struct source *src = scope->src;
    switch (setting->type) {
    case SETTING_PROSE:
        return mark_prose(c, scope, choice->text, &choice->prose);
    case SETTING_LIST:
        return read_items(c, scope, choice);
    case SETTING_CHOICE:
        return read_choice(c, src, setting->choices, choice->text);
    case SETTING_YES_NO:
        return read_choice(c, src, "yes|no", choice->text);
    case SETTING_COUNT:
        return read_count(c, scope, choice->text);
    case SETTING_DATE:
        return read_date(c, src, choice->text);
    case SETTING_TEXT: /* these are values, and read as such later */
    case SETTING_QUANTITY:
    case SETTING_LIMIT:
    case SETTING_DROP:
    case SETTING_SIZE:
    case SETTING_BLOCK:
    case SETTING_BLOCKS:
    case SETTING_BLOCK_OR_QUANTITY:
    case SETTING_VARIANTS:
    case SETTING_FILES:
    case SETTING_STARTING:
    case SETTING_AT:
    case SETTING_PLACE:
    case SETTING_WRENCH:
    case SETTING_STAGES:
        return true;
    }
    return true;
}

bool entry_read(struct compile *c, const struct scope *scope,
                const struct setting *setting, struct entry *e) {
    bool good = true;
    for (size_t i = 0; i < e->choice_count; i++)
        good = read_one(c, scope, setting, &e->choices[i]) && good;
    return good;
}

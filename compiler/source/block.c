/* block.c - the block grammar: lines of a fenced block -> settings,
 * definitions, requirements, rows.
 *
 *   block   := { comment | blank | entry }
 *   comment := "#" [ " " text ]
 *   entry   := line { indented line }
 *   line    := name ":" value | name "=" value | requirement | row
 *
 * Which of these a line is follows from the kind. Where settings and rows share
 * a block the settings stand first: the first line that is not one names the
 * columns. In a circuit each line is its own, however far it is indented. */
#include "source/block.h"

#include "base/arena.h"
#include "base/diag.h"
#include "base/list.h"
#include "source/circuit_read.h"
#include "source/entry.h"
#include "source/kind.h"
#include "source/row.h"
#include "source/slip.h"
#include "source/suggest.h"
#include "stages.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

struct item { /* a line with the indented lines below it */
    struct text text;
    bool goes_on; /* it begins with a bar */
};

struct parser {
    struct compile *c;
    const struct scope *scope;
    struct block *block;
    struct item *items;
    size_t item_count, item_room;
    size_t entry_room;
    uint64_t written; /* bit i: setting i of the table was seen */
    bool unknown;     /* a setting was not: do not say that one is missing */
};

static bool is_blank(char c) {
    return c == ' ' || c == '\t';
}

static struct span place_in(const struct parser *p, struct text t) {
    return place_of(p->scope->src, t);
}

static bool is_comment(struct text trimmed) {
    return trimmed.len > 0 && trimmed.start[0] == '#' &&
           (trimmed.len == 1 || is_blank(trimmed.start[1]));
}

/* Joins lines to items. An item is a slice of the source, so nothing but
 * indented lines may stand within it. */
static void collect_items(struct parser *p, const struct block_lines *lines) {
    bool open = false;
    bool alone = (p->block->kind->flags & KIND_HOLDS_ELEMENTS) != 0;
    for (size_t i = 0; i < lines->count; i++) {
        struct text line = lines->line[i], trimmed = text_trim(line);
        if (trimmed.len == 0 || is_comment(trimmed)) {
            open = false;
        } else if (alone || !is_blank(line.start[0])) {
            p->items = list_grown(p->c->arena, p->items, p->item_count,
                                  &p->item_room, sizeof *p->items);
            p->items[p->item_count++] =
                (struct item){trimmed, trimmed.start[0] == '|'};
            open = true;
        } else if (open) {
            struct item *last = &p->items[p->item_count - 1];
            const char *end = trimmed.start + trimmed.len;
            last->text.len = (size_t)(end - last->text.start);
        } else {
            diag_add(p->c->diags, DIAG_CONTINUATION_ALONE, place_in(p, trimmed),
                     "an indented line goes on with the line above, which is "
                     "blank or a comment");
            p->block->lost = true;
        }
    }
}

static struct entry *add_entry(struct parser *p, enum entry_kind kind,
                               struct text text) {
    struct block *b = p->block;
    b->entries = list_grown(p->c->arena, b->entries, b->entry_count,
                            &p->entry_room, sizeof *b->entries);
    struct entry *e = &b->entries[b->entry_count++];
    e->kind = kind;
    e->at = place_in(p, text);
    return e;
}

/* Key and value at the first `sep`; false when there is none. */
static bool split_key(struct text t, char sep, struct text *key,
                      struct text *value) {
    const char *at = memchr(t.start, sep, t.len);
    if (at == NULL)
        return false;
    size_t i = (size_t)(at - t.start);
    *key = text_trim(text_part(t, 0, i));
    *value = text_trim(text_part(t, i + 1, t.len));
    return true;
}

static bool check_value(struct parser *p, struct text line, struct text key,
                        struct text value) {
    if (key.len > 0 && value.len > 0)
        return true;
    diag_add(p->c->diags, DIAG_VALUE_MISSING, place_in(p, line), "%s",
             key.len == 0 ? "nothing stands before the sign"
                          : "nothing stands behind the sign");
    return false;
}

static void parse_definition(struct parser *p, struct text line) {
    struct text key, value;
    if (!split_key(line, '=', &key, &value)) {
        diag_add(p->c->diags, DIAG_LINE_FORM, place_in(p, line),
                 "in '%s' a line is: name = value", p->block->kind->name);
        p->block->lost = true;
        return;
    }
    struct entry *e = add_entry(p, ENTRY_DEFINITION, line);
    e->key = key;
    e->bad = !check_value(p, line, key, value) ||
             !entry_split(p->c, p->scope->src, value, QUOTES_SOURCE, e);
}

static void parse_requirement(struct parser *p, struct text line) {
    struct entry *e = add_entry(p, ENTRY_REQUIREMENT, line);
    e->bad = !entry_split(p->c, p->scope->src, line, QUOTES_SOURCE, e);
}

/* What the block works out, as one who wants to state it is told. */
static const char *worked_out(struct parser *p, struct text key) {
    const struct kind *k = p->block->kind;
    if (k->id == KIND_TORQUE && text_is(key, "torque"))
        return "; the maker's figure is written figure: 60 N.m";
    return kind_field(k, key) != NULL
               ? "; the block works it out, it is not written"
               : NULL;
}

static void report_setting(struct parser *p, struct text key) {
    const char *own = worked_out(p, key);
    const char *near =
        own != NULL ? NULL : kind_nearest_setting(p->block->kind, key);
    p->unknown = true;
    p->block->lost = true;
    diag_add(p->c->diags, DIAG_SETTING_UNKNOWN, place_in(p, key),
             "'%.*s' in '%s'%s%s", (int)key.len, key.start,
             p->block->kind->name, suggest(p->c->arena, key, text_of(near)),
             own != NULL ? own
             : near != NULL
                 ? ""
                 : arena_printf(p->c->arena, "; 'bayleaf help %s' lists them",
                                p->block->kind->name));
}

static void report_twice(struct parser *p, struct text key) {
    diag_add(p->c->diags, DIAG_SETTING_TWICE, place_in(p, key), "'%.*s'",
             (int)key.len, key.start);
}

/* Settings of the table have a bit each: a block of a million lines must not
 * take a million looks back. */
static bool written_before(struct parser *p, const struct setting *s) {
    uint64_t bit = UINT64_C(1) << (s - p->block->kind->settings);
    bool before = (p->written & bit) != 0;
    p->written |= bit;
    return before && !s->repeats;
}

static void read_setting(struct parser *p, struct text line, struct entry *e,
                         struct text value) {
    const struct setting *s = e->setting;
    bool plain =
        s != NULL && (s->type == SETTING_PROSE || s->type == SETTING_LIST);
    e->bad = !check_value(p, line, e->key, value) ||
             !entry_split(p->c, p->scope->src, value,
                          plain ? QUOTES_PLAIN : QUOTES_SOURCE, e);
    if (!e->bad && s != NULL)
        e->bad = !entry_read(p->c, p->scope, s, e);
    if (s != NULL && written_before(p, s)) {
        report_twice(p, e->key);
        e->bad = true;
    }
}

/* False when the line is not one: in a kind with rows it then begins them. */
static bool parse_setting(struct parser *p, struct text line) {
    const struct kind *k = p->block->kind;
    bool rows = (k->flags & KIND_HOLDS_ROWS) != 0;
    struct text key, value;
    if (!split_key(line, ':', &key, &value)) {
        if (rows)
            return false;
        diag_add(p->c->diags, DIAG_LINE_FORM, place_in(p, line),
                 "in '%s' a line is: setting: value", k->name);
        p->block->lost = true;
        return true;
    }
    const struct setting *s = kind_setting(k, key);
    bool unknown = s == NULL && (k->flags & KIND_FREE_SETTINGS) == 0;
    if (unknown && rows && memchr(line.start, '|', line.len) != NULL)
        return false;
    if (unknown) {
        report_setting(p, key);
        return true;
    }
    struct entry *e = add_entry(p, ENTRY_SETTING, line);
    e->key = key;
    e->setting = s;
    read_setting(p, line, e, value);
    return true;
}

/* Items from *at on that make one row. */
static struct row_lines next_row(struct parser *p, size_t *at) {
    size_t from = *at;
    for (++*at; *at < p->item_count && p->items[*at].goes_on;)
        ++*at;
    struct row_lines row = {NULL, *at - from};
    row.line = arena_alloc(p->c->arena, row.count, sizeof *row.line);
    for (size_t i = 0; i < row.count; i++)
        row.line[i] = p->items[from + i].text;
    return row;
}

static struct text row_text(const struct row_lines *row) {
    struct text first = row->line[0], last = row->line[row->count - 1];
    first.len = (size_t)(last.start + last.len - first.start);
    return first;
}

static void parse_rows(struct parser *p, size_t at) {
    struct block *b = p->block;
    if (at < p->item_count && p->items[at].goes_on) {
        diag_add(p->c->diags, DIAG_CONTINUATION_ALONE,
                 place_in(p, p->items[at].text),
                 "a bar at the start of a line goes on with the row above; a "
                 "row has bars between its cells only");
        b->lost = true;
        return;
    }
    if (at == p->item_count)
        return;
    struct row_lines head = next_row(p, &at);
    if (!row_head(p->c, p->scope, b, &head)) {
        b->column_count = 0;
        b->lost = true;
        return;
    }
    while (at < p->item_count) {
        struct row_lines row = next_row(p, &at);
        if (slip_is_rule(row_text(&row))) {
            diag_add(p->c->diags, DIAG_TABLE_RULE, place_in(p, row_text(&row)),
                     "delete it: the first row names the columns");
            continue;
        }
        struct entry *e = add_entry(p, ENTRY_ROW, row_text(&row));
        e->bad = !row_read(p->c, p->scope, b, &row, e);
        if (e->cells == NULL) { /* unreadable: readers must find every cell */
            b->entry_count--;
            b->lost = true;
        }
    }
}

/* Settings by the table; what is left is the circuit's own. */
static void parse_elements(struct parser *p) {
    struct text *line =
        arena_alloc(p->c->arena, p->item_count + 1, sizeof *line);
    size_t count = 0;
    for (size_t i = 0; i < p->item_count; i++) {
        struct text key, value, one = p->items[i].text;
        bool setting = split_key(one, ':', &key, &value) &&
                       kind_setting(p->block->kind, key) != NULL;
        if (setting)
            parse_setting(p, one);
        if (!setting || text_is(key, "supply") || text_is(key, "state"))
            line[count++] = one;
    }
    circuit_read(p->c, p->scope, p->block, line, count);
}

static void parse_items(struct parser *p) {
    unsigned flags = p->block->kind->flags;
    if (flags & KIND_HOLDS_ELEMENTS) {
        parse_elements(p);
        return;
    }
    size_t at = 0;
    for (; at < p->item_count; at++) {
        struct text line = p->items[at].text;
        if (flags & KIND_HOLDS_DEFINITIONS)
            parse_definition(p, line);
        else if (flags & KIND_HOLDS_REQUIREMENTS)
            parse_requirement(p, line);
        else if ((flags & KIND_HOLDS_SETTINGS) == 0 || !parse_setting(p, line))
            break;
    }
    if (flags & KIND_HOLDS_ROWS)
        parse_rows(p, at);
}

static int compare_keys(const void *left, const void *right) {
    const struct entry *const *a = left, *const *b = right;
    int order = text_compare((*a)->key, (*b)->key);
    if (order != 0)
        return order;
    return (*a)->key.start < (*b)->key.start ? -1 : 1;
}

enum { NEEDS_MAX = 100 };

/* The author's own names, in `needs`. */
static void check_free_names(struct parser *p) {
    struct block *b = p->block;
    if (b->entry_count > NEEDS_MAX) {
        diag_add(p->c->diags, DIAG_NEEDS_MANY, b->at, "more than %d",
                 (int)NEEDS_MAX);
        b->entry_count = NEEDS_MAX;
    }
    struct entry **sorted =
        arena_alloc(p->c->arena, b->entry_count + 1, sizeof(struct entry *));
    for (size_t i = 0; i < b->entry_count; i++)
        sorted[i] = &b->entries[i];
    if (b->entry_count > 1)
        qsort(sorted, b->entry_count, sizeof *sorted, compare_keys);
    for (size_t i = 1; i < b->entry_count; i++)
        if (text_equal(sorted[i]->key, sorted[i - 1]->key)) {
            report_twice(p, sorted[i]->key);
            sorted[i]->bad = true;
        }
}

/* Of calculations a default may supply what the block does not say, so their
 * rows in the table require nothing. */
static void check_required(struct parser *p) {
    const struct block *b = p->block;
    for (const struct setting *s = b->kind->settings;
         s != NULL && s->name != NULL; s++)
        if (s->required && !p->unknown && tree_setting(b, s->name) == NULL)
            diag_add(p->c->diags, DIAG_SETTING_MISSING, b->at,
                     "'%s' needs '%s'", b->kind->name, s->name);
    bool rows_only = (b->kind->flags & KIND_HOLDS_ROWS) &&
                     (b->kind->flags & KIND_HOLDS_SETTINGS) == 0;
    if (rows_only && p->item_count == 0)
        diag_add(p->c->diags, DIAG_ROWS_MISSING, b->at,
                 "the first row of '%s' names the columns", b->kind->name);
}

static struct text next_word(struct text *rest) {
    size_t end = 0;
    while (end < rest->len && !is_blank(rest->start[end]))
        end++;
    struct text word = text_part(*rest, 0, end);
    *rest = text_trim(text_part(*rest, end, rest->len));
    return word;
}

static const char *place_name(unsigned place) {
    return place == KIND_IN_GUIDE      ? "a guide"
           : place == KIND_IN_FACTS    ? "a file of facts"
           : place == KIND_IN_SHARED   ? "a shared file"
           : place == KIND_IN_TEMPLATE ? "a template"
           : place == KIND_IN_JOB      ? "a job file"
                                       : "the hazard catalogue";
}

static bool check_kind(struct parser *p, unsigned place, struct text word) {
    const struct kind *k = kind_find(word);
    p->block->kind = k;
    if (k == NULL) {
        const char *near = kind_nearest(word, place);
        diag_add(p->c->diags, DIAG_KIND_UNKNOWN, place_in(p, word), "'%.*s'%s",
                 (int)word.len, word.start,
                 suggest(p->c->arena, word, text_of(near)));
        return false;
    }
    if (k->flags & place)
        return true;
    diag_add(p->c->diags, DIAG_KIND_MISPLACED, place_in(p, word),
             "'%s' cannot stand in %s", k->name, place_name(place));
    return false;
}

static bool check_name(struct parser *p, struct text rest) {
    struct block *b = p->block;
    b->name = rest.len > 0 ? next_word(&rest) : (struct text){NULL, 0};
    if (rest.len > 0) {
        diag_add(p->c->diags, DIAG_NAME_SURPLUS, place_in(p, rest),
                 "one word stands behind '%s'", b->kind->name);
        return false;
    }
    if (b->kind->naming == NAME_NONE && b->name.len > 0) {
        diag_add(p->c->diags, DIAG_NAME_SURPLUS, place_in(p, b->name),
                 "'%s' takes no name", b->kind->name);
        return false;
    }
    if (b->kind->naming == NAME_REQUIRED && b->name.len == 0) {
        diag_add(p->c->diags, DIAG_NAME_MISSING, b->at, "write: %s NAME",
                 b->kind->name);
        return false;
    }
    return true;
}

struct block *block_parse(struct compile *c, const struct scope *scope,
                          unsigned place, const struct block_lines *lines) {
    struct parser p = {.c = c, .scope = scope};
    struct block *b = p.block = arena_alloc(c->arena, 1, sizeof *b);
    b->at = place_of(scope->src, lines->info);
    b->scope = scope;
    struct text rest = lines->info, word = next_word(&rest);
    if (!check_kind(&p, place, word) || !check_name(&p, rest))
        return NULL;
    collect_items(&p, lines);
    parse_items(&p);
    check_required(&p);
    if (b->kind->flags & KIND_FREE_SETTINGS)
        check_free_names(&p);
    return b;
}

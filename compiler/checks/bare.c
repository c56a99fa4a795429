/* bare.c - numbers with a unit that stand in running text without braces. */
#include "checks/bare.h"

#include "base/arena.h"
#include "base/diag.h"
#include "calc/unit.h"
#include "source/kind.h"
#include "source/tree.h"

#include <string.h>

struct finder {
    struct compile *c;
    const struct guide *guide;
    bool released;
    struct text *plain; /* sizes that may stand bare */
    size_t plain_count;
};

static bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

static bool is_word(char c) {
    return is_digit(c) || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
           (unsigned char)c >= 0x80;
}

/* A number at `at` that no word or number runs into; its length. */
static size_t number_length(struct text t, size_t at) {
    if (!is_digit(t.start[at]))
        return 0;
    if (at > 0 &&
        (is_word(t.start[at - 1]) || strchr("-./", t.start[at - 1]) != NULL))
        return 0;
    size_t end = at;
    while (end < t.len && is_digit(t.start[end]))
        end++;
    if (end + 1 < t.len && strchr("./", t.start[end]) != NULL &&
        is_digit(t.start[end + 1])) {
        end++;
        while (end < t.len && is_digit(t.start[end]))
            end++;
    }
    return end - at;
}

/* "2 in the manual": `in` is a word where an article follows. */
static bool is_preposition(struct text t, size_t at, size_t len) {
    static const char *const after[] = {" the ",  " a ",    " an ",   " this ",
                                        " that ", " its ",  " your ", " each ",
                                        " all ",  " order", " turn"};
    if (!text_is(text_part(t, at, at + len), "in"))
        return false;
    struct text rest = text_part(t, at + len, t.len);
    for (size_t i = 0; i < sizeof after / sizeof after[0]; i++)
        if (text_starts(rest, after[i]))
            return true;
    return false;
}

/* A unit or AWG behind the number, with or without a blank; its end. */
static size_t unit_end(struct text t, size_t at) {
    size_t start = at;
    if (start < t.len && t.start[start] == ' ')
        start++;
    struct text rest = text_part(t, start, t.len);
    if (text_starts(rest, "AWG") && (rest.len == 3 || !is_word(rest.start[3])))
        return start + 3;
    size_t used = 0;
    const struct unit *u = unit_prefix(rest.start, rest.len, &used);
    if (u == NULL || used == 0 || is_preposition(t, start, used))
        return 0;
    /* 3' and 3" only straight behind the digit; 5 s and 5's apart. */
    if (strchr("'\"", rest.start[0]) != NULL && start > at)
        return 0;
    return start + used;
}

static bool is_plain(const struct finder *f, struct text found) {
    for (size_t i = 0; i < f->plain_count; i++)
        if (text_equal(f->plain[i], found))
            return true;
    return false;
}

static struct span place(struct text found, struct span near) {
    const struct source *src = near.src;
    bool inside = src != NULL && found.start >= src->text.start &&
                  found.start <= src->text.start + src->text.len;
    return inside ? place_of(src, found) : near;
}

static void scan(struct finder *f, struct text t, struct span near) {
    for (size_t at = 0; at < t.len; at++) {
        size_t number = number_length(t, at);
        if (number == 0)
            continue;
        size_t end = unit_end(t, at + number);
        if (end > 0) {
            struct text found = text_part(t, at, end);
            if (!is_plain(f, found))
                diag_add(f->c->diags,
                         f->released ? DIAG_BARE_RELEASED : DIAG_BARE_DRAFT,
                         place(found, near), "write {%.*s} or name a value",
                         (int)found.len, found.start);
            number = end - at;
        }
        at += number - 1;
    }
}

static void scan_inlines(struct finder *f, const struct inlines *i) {
    for (; i != NULL; i = i->next) {
        if (i->kind == INLINE_TEXT)
            scan(f, i->text, i->at);
        scan_inlines(f, i->first);
    }
}

/* Limits and quantities of a row are values; an instrument is a name. */
static bool is_running(const struct block *b, size_t k) {
    const struct column *c = b->column == NULL ? NULL : b->column[k];
    if (c == NULL)
        return true;
    return c->type != SETTING_LIMIT && c->type != SETTING_QUANTITY &&
           strcmp(c->name, "instrument") != 0;
}

/* Not the parts list, whose descriptions are names. */
static void scan_rows(struct finder *f, const struct block *b) {
    if (b->kind->id == KIND_PARTS)
        return;
    for (size_t i = 0; i < b->entry_count; i++) {
        const struct entry *e = &b->entries[i];
        for (size_t k = 0; e->kind == ENTRY_ROW && k < b->column_count; k++)
            if (is_running(b, k))
                scan_inlines(f, e->cells[k].prose);
    }
}

static void scan_prose_settings(struct finder *f, const struct block *b) {
    for (size_t i = 0; i < b->entry_count; i++) {
        const struct entry *e = &b->entries[i];
        if (e->kind != ENTRY_SETTING || e->setting == NULL ||
            (e->setting->type != SETTING_PROSE &&
             b->kind->id != KIND_PRELIMINARY))
            continue;
        for (size_t k = 0; k < e->choice_count; k++)
            scan_inlines(f, e->choices[k].prose);
    }
}

static void read_plain(struct finder *f) {
    const struct guide *g = f->guide;
    f->plain = arena_alloc(f->c->arena, 256, sizeof *f->plain);
    for (size_t i = 0; i < g->block_count; i++) {
        const struct entry *e = g->blocks[i]->kind->id == KIND_SHOP
                                    ? tree_setting(g->blocks[i], "plain sizes")
                                    : NULL;
        if (e == NULL || e->choice_count == 0)
            continue;
        struct text rest = e->choices[0].text;
        while (rest.len > 0 && f->plain_count < 256) {
            size_t end = 0;
            while (end < rest.len && rest.start[end] != ',')
                end++;
            f->plain[f->plain_count++] =
                text_squeezed(f->c->arena, text_part(rest, 0, end));
            rest = text_part(rest, end < rest.len ? end + 1 : end, rest.len);
        }
    }
}

void bare_find(struct compile *c, const struct guide *g) {
    struct finder f = {.c = c, .guide = g};
    const struct entry *status =
        g->identity == NULL ? NULL : tree_setting(g->identity, "status");
    f.released = status != NULL && status->choice_count > 0 &&
                 text_is(text_trim(status->choices[0].text), "released");
    read_plain(&f);
    scan_inlines(&f, g->title_text);
    for (size_t i = 0; i < g->node_count; i++) {
        const struct node *n = g->nodes[i];
        scan_inlines(&f, n->text);
        if (n->kind != NODE_BLOCK)
            continue;
        if (n->block->kind->id == KIND_OVERRIDE)
            continue; /* a reason quotes the rule that it sets aside */
        scan_rows(&f, n->block);
        scan_prose_settings(&f, n->block);
    }
}

/* names.c - every name a guide knows: definitions, settings and fields, each in
 * the scope where it is visible. */
#include "base/arena.h"
#include "base/diag.h"
#include "base/list.h"
#include "source/suggest.h"
#include "values/circuit_names.h"
#include "values/model.h"

#include <stdlib.h>
#include <string.h>

static struct slot *add_slot(struct values *v) {
    v->slot = list_grown(v->c->arena, v->slot, v->slot_count, &v->slot_room,
                         sizeof *v->slot);
    struct slot *s = &v->slot[v->slot_count++];
    s->named.by_variant =
        arena_alloc(v->c->arena, v->variant_count, sizeof(struct value));
    s->state =
        arena_alloc(v->c->arena, v->variant_count, sizeof(enum slot_state));
    return s;
}

/* "feed" and "drop limit" make feed.drop.limit: a name has no blanks. */
static struct text full_name(struct values *v, const struct block *b,
                             struct text part) {
    struct buf name = buf_in(v->c->arena);
    buf_text(&name, b->name);
    buf_puts(&name, ".");
    for (size_t i = 0; i < part.len; i++)
        buf_add(&name, part.start[i] == ' ' ? "." : part.start + i, 1);
    return buf_as_text(&name);
}

static bool is_name(struct text t) {
    if (t.len == 0 || t.start[0] == '.' || t.start[t.len - 1] == '.')
        return false;
    for (size_t i = 0; i < t.len; i++) {
        char c = t.start[i];
        bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
        bool digit = c >= '0' && c <= '9';
        if (!letter && !digit && c != '.')
            return false;
        if (i == 0 && !letter)
            return false;
        if (c == '.' && t.start[i - 1] == '.')
            return false;
    }
    return true;
}

static bool is_reserved(struct text t) {
    static const char *const words[] = {
        "to",      "in",    "at",   "range",   "for",     "min",
        "max",     "abs",   "sqrt", "yes",     "no",      "others",
        "touches", "does",  "hold", "initial", "reading", "step",
        "see",     "defer", "shop", "owner",   "AWG",     "SAE"};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (text_is(t, words[i]))
            return true;
    return false;
}

static void check_name(struct values *v, const struct block *b,
                       struct text name) {
    if (name.len == 0)
        return; /* that it is missing was said while reading */
    struct span at = place_of(b->scope->src, name);
    if (!is_name(name))
        diag_add(v->c->diags, DIAG_NAME_FORM, at,
                 "'%.*s': letters and digits, words joined by dots, a letter "
                 "first%s",
                 (int)name.len, name.start,
                 suggest(v->c->arena, name, (struct text){NULL, 0}));
    else if (is_reserved(name))
        diag_add(v->c->diags, DIAG_NAME_RESERVED, at, "'%.*s'", (int)name.len,
                 name.start);
    else if (unit_find(name.start, name.len) != NULL)
        diag_add(v->c->diags, DIAG_NAME_IS_UNIT, at, "'%.*s'", (int)name.len,
                 name.start);
}

/* The scope that an include block opened, where its definitions are known. */
static const struct scope *opened_by(const struct values *v,
                                     const struct block *b) {
    for (size_t i = 0; i < v->guide->scope_count; i++)
        if (v->guide->scopes[i]->include == b)
            return v->guide->scopes[i];
    return b->scope;
}

static void add_definitions(struct values *v, const struct block *b) {
    const struct scope *visible =
        b->kind->id == KIND_INCLUDE ? opened_by(v, b) : b->scope;
    for (size_t i = 0; i < b->entry_count; i++) {
        const struct entry *e = &b->entries[i];
        if (e->kind != ENTRY_DEFINITION)
            continue;
        check_name(v, b, e->key);
        struct slot *s = add_slot(v);
        s->entry = e;
        s->visible = visible;
        s->evaluated = b->scope;
        s->named.name = e->key;
        s->named.block = b;
        s->named.at = place_of(b->scope->src, e->key);
    }
}

bool names_has(const struct block *b) {
    return b->name.len > 0 &&
           (b->kind->fields != NULL || b->kind->id == KIND_SUPPLY ||
            b->kind->id == KIND_CIRCUIT || b->kind->id == KIND_LOAD);
}

static void add_setting_slots(struct values *v, const struct block *b) {
    for (const struct setting *t = b->kind->settings;
         t != NULL && t->name != NULL; t++) {
        if (t->repeats || t->type == SETTING_PROSE)
            continue; /* running text, printed as it stands */
        struct slot *s = add_slot(v);
        s->setting = t;
        s->hidden = !names_has(b);
        const struct block *from = blocks_stating(v, b, t->name);
        s->entry = from == NULL ? NULL : tree_setting(from, t->name);
        s->visible = b->scope;
        s->evaluated = from == NULL ? b->scope : from->scope;
        s->named.name = full_name(v, b, text_of(t->name));
        /* `ampacity` names a table and is computed too: the field is the one
         * that a guide can name. A blank cannot be written in a name. */
        if (kind_field(b->kind, text_of(t->name)) != NULL)
            s->named.name = text_of(arena_printf(v->c->arena, "%.*s setting",
                                                 (int)s->named.name.len,
                                                 s->named.name.start));
        s->named.block = b;
        s->named.at = b->at;
        if (s->entry != NULL)
            s->named.at = s->entry->at;
    }
}

static void add_field_slots(struct values *v, const struct block *b) {
    for (const struct field *f = b->kind->fields; f != NULL && f->name != NULL;
         f++) {
        struct slot *s = add_slot(v);
        s->field = f;
        s->visible = b->scope;
        s->evaluated = b->scope;
        s->named.name = full_name(v, b, text_of(f->name));
        s->named.block = b;
        s->named.computed = true;
        s->named.at = b->at;
    }
}

/* qsort has no context: names are compared with their scope's index. */
struct key {
    struct text name;
    size_t scope, slot;
};

static int compare_keys(const void *left, const void *right) {
    const struct key *a = left, *b = right;
    int order = text_compare(a->name, b->name);
    if (order != 0)
        return order;
    if (a->scope != b->scope)
        return a->scope < b->scope ? -1 : 1;
    return a->slot < b->slot ? -1 : a->slot > b->slot;
}

/* Two blocks of one name are told once, not for each of their fields. */
static void report_block_twice(struct values *v, const struct block *b) {
    const struct scope *facts = v->guide->scopes[0];
    const struct block *other = blocks_same_name(v, b, b->scope);
    bool hidden = other == NULL;
    if (hidden && b->scope->parent != NULL)
        other = blocks_same_name(v, b, facts);
    if (other == NULL)
        return;
    diag_add(v->c->diags, DIAG_NAME_TWICE, b->at, "'%.*s'%s", (int)b->name.len,
             b->name.start, hidden ? " stands in the library's facts" : "");
    diag_note(v->c->diags, other->at, "the other one is here");
}

static bool same_block_name(const struct slot *a, const struct slot *b) {
    bool fields = (a->setting != NULL || a->field != NULL) &&
                  (b->setting != NULL || b->field != NULL);
    return fields && text_equal(a->named.block->name, b->named.block->name);
}

static void report_twice(struct values *v, const struct slot *first,
                         const struct slot *second) {
    /* A written line is the better place than a block's heading. */
    const struct slot *at = second->entry != NULL ? second : first;
    const struct slot *other = at == second ? first : second;
    diag_add(v->c->diags, DIAG_NAME_TWICE, at->named.at, "'%.*s'",
             (int)at->named.name.len, at->named.name.start);
    diag_note(v->c->diags, other->named.at, "the other one is here");
}

static bool is_fact(const struct slot *s) {
    return s->visible->parent == NULL;
}

/* A definition may hide no fact: facts belong to the library, and a guide's own
 * name would make two guides differ. A shared file has names of its own beside
 * those of its guide, and is given what it needs by any name. */
static void report_hidden(struct values *v, const struct slot *s) {
    if (is_fact(s) || s->named.block->kind->id == KIND_INCLUDE)
        return;
    struct slot *outer = names_find(v, s->visible->parent, s->named.name);
    if (outer == NULL || !is_fact(outer) || same_block_name(s, outer))
        return;
    diag_add(v->c->diags, DIAG_NAME_TWICE, s->named.at,
             "'%.*s' is a fact of the library; %s cannot redefine it",
             (int)s->named.name.len, s->named.name.start,
             s->visible->include == NULL ? "a guide" : "a shared file");
    diag_note(v->c->diags, outer->named.at, "the fact is here");
}

static void sort_slots(struct values *v) {
    struct key *keys =
        arena_alloc(v->c->arena, v->slot_count + 1, sizeof *keys);
    size_t count = 0;
    for (size_t i = 0; i < v->slot_count; i++)
        if (!v->slot[i].hidden)
            keys[count++] = (struct key){v->slot[i].named.name,
                                         v->slot[i].visible->index, i};
    qsort(keys, count, sizeof *keys, compare_keys);
    v->sorted = arena_alloc(v->c->arena, count + 1, sizeof *v->sorted);
    v->sorted_count = count;
    for (size_t i = 0; i < count; i++)
        v->sorted[i] = keys[i].slot;
    for (size_t i = 1; i < count; i++)
        if (keys[i].scope == keys[i - 1].scope &&
            text_equal(keys[i].name, keys[i - 1].name) &&
            !same_block_name(&v->slot[keys[i - 1].slot],
                             &v->slot[keys[i].slot]))
            report_twice(v, &v->slot[keys[i - 1].slot], &v->slot[keys[i].slot]);
    for (size_t i = 0; i < count; i++)
        report_hidden(v, &v->slot[keys[i].slot]);
}

void names_collect(struct values *v) {
    const struct guide *g = v->guide;
    v->of_block =
        arena_alloc(v->c->arena, g->block_count + 1, sizeof *v->of_block);
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        struct block_slots *own = &v->of_block[b->index];
        own->state =
            arena_alloc(v->c->arena, v->variant_count, sizeof(enum slot_state));
        if (b->kind->flags & KIND_HOLDS_DEFINITIONS)
            add_definitions(v, b);
        own->outcome =
            arena_alloc(v->c->arena, v->variant_count, sizeof(*own->outcome));
        own->failed = arena_alloc(v->c->arena, v->variant_count, sizeof(bool));
        own->circuit =
            arena_alloc(v->c->arena, v->variant_count, sizeof(*own->circuit));
        own->first = v->slot_count;
        add_setting_slots(v, b);
        if (names_has(b)) {
            check_name(v, b, b->name);
            report_block_twice(v, b);
            add_field_slots(v, b);
            circuit_names_add(v, b, add_slot);
        }
        own->count = v->slot_count - own->first;
    }
    sort_slots(v);
}

size_t names_copy(struct values *v, size_t slot) {
    struct slot *copy = add_slot(v);
    struct slot *of = &v->slot[slot];
    struct value *by_variant = copy->named.by_variant;
    enum slot_state *state = copy->state;
    *copy = *of;
    copy->named.by_variant = by_variant;
    copy->state = state;
    copy->hidden = true;
    return v->slot_count - 1;
}

static struct slot *find_in(const struct values *v, const struct scope *scope,
                            struct text name) {
    size_t low = 0, high = v->sorted_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        struct slot *s = &v->slot[v->sorted[middle]];
        int order = text_compare(name, s->named.name);
        if (order == 0 && scope->index != s->visible->index)
            order = scope->index < s->visible->index ? -1 : 1;
        if (order == 0)
            return s;
        if (order < 0)
            high = middle;
        else
            low = middle + 1;
    }
    return NULL;
}

struct slot *names_find(const struct values *v, const struct scope *from,
                        struct text name) {
    for (const struct scope *s = from; s != NULL; s = s->parent) {
        struct slot *found = find_in(v, s, name);
        if (found != NULL)
            return found;
    }
    return NULL;
}

struct slot *names_setting(const struct values *v, const struct block *b,
                           const char *name) {
    const struct block_slots *own = &v->of_block[b->index];
    for (size_t i = own->first; i < own->first + own->count; i++) {
        struct slot *s = &v->slot[i];
        if (s->setting != NULL && strcmp(s->setting->name, name) == 0)
            return s;
    }
    return NULL;
}

struct slot *names_field(const struct values *v, const struct block *b,
                         const char *name) {
    const struct block_slots *own = &v->of_block[b->index];
    for (size_t i = own->first; i < own->first + own->count; i++) {
        struct slot *s = &v->slot[i];
        if (s->field != NULL && strcmp(s->field->name, name) == 0)
            return s;
    }
    return NULL;
}

/* "feed" of feed.drop where there is no such block; else all of the name. */
static struct text told_part(const struct values *v, struct text name) {
    size_t end = 0;
    while (end < name.len && name.start[end] != '.')
        end++;
    struct text first = text_part(name, 0, end);
    for (size_t i = 0; i < v->guide->block_count; i++)
        if (text_equal(v->guide->blocks[i]->name, first))
            return name;
    for (size_t i = 0; i < v->slot_count; i++) {
        struct text other = v->slot[i].named.name;
        if (other.len > end && other.start[end] == '.' &&
            text_equal(text_part(other, 0, end), first))
            return name;
    }
    return first;
}

enum { TOLD_MAX = 200 }; /* as many as are shown */

bool names_word_told(const struct values *v, struct text word) {
    struct reported *told = v->told;
    for (size_t i = 0; i < told->count; i++)
        if (text_equal(told->word[i], word))
            return true;
    if (told->count < TOLD_MAX) {
        told->word = list_grown(v->c->arena, told->word, told->count,
                                &told->room, sizeof *told->word);
        told->word[told->count++] = word;
    }
    return false;
}

bool names_told(const struct values *v, struct text name) {
    return names_word_told(v, told_part(v, name));
}

void names_suggest(const struct values *v, const struct scope *from,
                   struct nearest *near) {
    for (size_t i = 0; i < v->slot_count; i++) {
        const struct slot *s = &v->slot[i];
        bool seen = false;
        for (const struct scope *k = from; k != NULL; k = k->parent)
            seen = seen || k->index == s->visible->index;
        if (seen && !s->hidden && (s->entry != NULL || s->field != NULL))
            nearest_offer(near, s->named.name);
    }
}

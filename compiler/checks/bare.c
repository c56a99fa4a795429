/* bare.c - numbers with a unit that stand in running text without braces. */
#include "checks/bare.h"

#include "base/arena.h"
#include "base/diag.h"
#include "base/list.h"
#include "checks/spot.h"
#include "source/kind.h"
#include "source/tree.h"

#include <string.h>

struct finder {
    struct compile *c;
    const struct guide *guide;
    bool released;
    struct text *plain; /* sizes that may stand bare */
    size_t plain_count, plain_room;
};

static bool is_plain(const struct finder *f, const char *value) {
    for (size_t i = 0; i < f->plain_count; i++)
        if (text_is(f->plain[i], value))
            return true;
    return false;
}

/* Running text as one string, and where its parts stand: a number and its unit
 * may be parted by a line end or by emphasis. */
struct part {
    size_t from; /* in the string */
    struct text text;
    struct span near;
};

struct flat {
    struct buf string;
    struct part *part;
    size_t count, room;
};

static void add_part(struct finder *f, struct flat *flat, struct text t,
                     struct span near) {
    flat->part = list_grown(f->c->arena, flat->part, flat->count, &flat->room,
                            sizeof *flat->part);
    flat->part[flat->count++] = (struct part){flat->string.len, t, near};
    buf_text(&flat->string, t);
}

/* What is no text stands as a sign that is neither letter, digit nor blank. */
static void flatten(struct finder *f, const struct inlines *i,
                    struct flat *flat) {
    for (; i != NULL; i = i->next) {
        if (i->kind == INLINE_TEXT)
            add_part(f, flat, i->text, i->at);
        else if (i->kind == INLINE_SPACE || i->kind == INLINE_BREAK)
            add_part(f, flat, text_of(" "), i->at);
        else if (i->first == NULL)
            add_part(f, flat, text_of("|"), i->at);
        flatten(f, i->first, flat);
    }
}

/* The byte of the source behind which a byte of the string stands. */
static struct span place_of_byte(const struct flat *flat, size_t at) {
    size_t low = 0, high = flat->count; /* the last part from `at` or before */
    while (high - low > 1) {
        size_t middle = low + (high - low) / 2;
        *(flat->part[middle].from <= at ? &low : &high) = middle;
    }
    const struct part *p = &flat->part[low];
    const struct source *src = p->near.src;
    const char *byte = p->text.start + (at - p->from);
    bool inside = src != NULL && byte >= src->text.start &&
                  byte < src->text.start + src->text.len;
    if (!inside)
        return p->near;
    size_t offset = (size_t)(byte - src->text.start);
    return (struct span){src, offset, offset + 1};
}

static struct span place(const struct flat *flat, const struct spot *s) {
    struct span first = place_of_byte(flat, s->from);
    struct span last = place_of_byte(flat, s->to - 1);
    if (first.src == last.src && last.end > first.start)
        first.end = last.end;
    return first;
}

static void scan_inlines(struct finder *f, const struct inlines *i) {
    struct flat flat = {.string = buf_in(f->c->arena)};
    flatten(f, i, &flat);
    if (flat.count == 0)
        return;
    struct text t = {buf_cstr(&flat.string), flat.string.len};
    struct spot s;
    for (size_t at = 0; spot_next(f->c->arena, t, at, &s); at = s.to)
        if (!is_plain(f, s.value))
            diag_add(f->c->diags,
                     f->released ? DIAG_BARE_RELEASED : DIAG_BARE_DRAFT,
                     place(&flat, &s), "write {%s} or name a value", s.value);
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
        if (e->kind != ENTRY_SETTING || e->setting == NULL)
            continue;
        for (size_t k = 0; k < e->choice_count; k++) {
            scan_inlines(f, e->choices[k].prose);
            for (size_t n = 0; n < e->choices[k].item_count; n++)
                scan_inlines(f, e->choices[k].items[n].prose);
        }
    }
}

static void add_plain(struct finder *f, struct text size) {
    f->plain = list_grown(f->c->arena, f->plain, f->plain_count, &f->plain_room,
                          sizeof *f->plain);
    f->plain[f->plain_count++] = text_squeezed(f->c->arena, size);
}

/* One that is none would stand bare in no sentence, and nobody would know why.
 */
static bool is_size(struct finder *f, const struct block *b, struct text size) {
    struct spot s;
    if (spot_next(f->c->arena, size, 0, &s) && s.from == 0 && s.to == size.len)
        return true;
    diag_add(f->c->diags, DIAG_SETTING_VALUE, place_of(b->scope->src, size),
             "'%.*s' is no size: write a number and its unit, 10 mm",
             (int)size.len, size.start);
    return false;
}

static void read_plain(struct finder *f) {
    const struct guide *g = f->guide;
    for (size_t i = 0; i < g->block_count; i++) {
        const struct entry *e = g->blocks[i]->kind->id == KIND_SHOP
                                    ? tree_setting(g->blocks[i], "plain sizes")
                                    : NULL;
        struct text rest = {NULL, 0}, size;
        if (e != NULL && e->choice_count > 0)
            rest = e->choices[0].text;
        while (text_next_part(&rest, ',', &size))
            if (is_size(f, g->blocks[i], size))
                add_plain(f, size);
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

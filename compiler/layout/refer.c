/* refer.c - "step 14 (page 3)": what {see NAME} prints and where it leads.
 *
 * Page numbers are known only after the pages were broken, and are written
 * then. Layout is done again only where one takes more figures than the one
 * that was set aside for it, or where the target turned out not to be printed.
 */
#include "layout/refer.h"

#include "base/arena.h"
#include "base/diag.h"

#include <ctype.h>

static size_t row_count(const struct leaf *l) {
    size_t count = 0;
    for (const struct block *b = leaf_next(l, NULL, KIND_LIMITS); b != NULL;
         b = leaf_next(l, b, KIND_LIMITS))
        count += b->entry_count;
    return count;
}

static void forget(struct targets *t) {
    t->late_count = 0;
    for (size_t i = 0; i < t->count; i++)
        t->anchor[i].page = -1;
}

void refer_open(struct leaf *l) {
    struct arena *a = l->composer.arena;
    struct targets *t = &l->targets;
    t->count = l->guide->node_count + row_count(l);
    t->anchor = arena_alloc(a, t->count + 1, sizeof *t->anchor);
    t->figures = arena_alloc(a, t->count + 1, sizeof *t->figures);
    for (size_t i = 0; i < t->count; i++)
        t->figures[i] = 1;
    forget(t);
}

/* Room only grows, so that this comes to an end. */
bool refer_settle(struct leaf *l) {
    struct targets *t = &l->targets;
    bool settled = true;
    for (size_t i = 0; i < t->late_count; i++) {
        size_t *figures = &t->figures[t->late[i]->to - t->anchor];
        size_t needs = late_needs(t->late[i]);
        if (needs > 0 && needs <= t->late[i]->figures)
            continue;
        *figures = needs;
        settled = false;
    }
    for (size_t i = 0; settled && i < t->late_count; i++)
        late_write(l->composer.shaper, t->late[i]);
    if (!settled)
        forget(t);
    return settled;
}

struct anchor *refer_node(struct leaf *l, const struct node *n) {
    return &l->targets.anchor[n->index];
}

static size_t row_index(const struct leaf *l, const struct entry *row) {
    size_t index = l->guide->node_count;
    for (const struct block *b = leaf_next(l, NULL, KIND_LIMITS); b != NULL;
         b = leaf_next(l, b, KIND_LIMITS)) {
        if (row >= b->entries && row < b->entries + b->entry_count)
            return index + (size_t)(row - b->entries);
        index += b->entry_count;
    }
    return l->targets.count; /* one spare */
}

struct anchor *refer_row(struct leaf *l, const struct entry *row) {
    return &l->targets.anchor[row_index(l, row)];
}

const struct entry *refer_reading(const struct leaf *l, struct text id,
                                  const struct block **block) {
    for (const struct block *b = leaf_next(l, NULL, KIND_LIMITS); b != NULL;
         b = leaf_next(l, b, KIND_LIMITS))
        for (size_t i = 0; i < b->entry_count; i++) {
            const struct cell *cell = tree_cell(b, &b->entries[i], "id");
            if (cell == NULL || !text_equal(cell->text, id))
                continue;
            if (block != NULL)
                *block = b;
            return &b->entries[i];
        }
    return NULL;
}

static struct late *add_late(struct leaf *l, const struct anchor *to,
                             size_t figures) {
    struct targets *t = &l->targets;
    struct arena *a = l->composer.arena;
    if (t->late_count == t->late_room) {
        size_t room = t->late_room == 0 ? 16 : t->late_room * 2;
        t->late = arena_grow(a, t->late, t->late_count, room, sizeof(*t->late));
        t->late_room = room;
    }
    struct late *late = arena_alloc(a, 1, sizeof *late);
    late->to = to;
    late->figures = figures;
    t->late[t->late_count++] = late;
    return late;
}

/* "WORDS (page N)", linked; no page when it is not printed in this guide. */
static void add(struct leaf *l, struct rich *r, struct tone tone,
                const char *words, size_t index, struct span at) {
    struct targets *t = &l->targets;
    struct arena *a = l->composer.arena;
    const struct anchor *to = &t->anchor[index];
    size_t figures = t->figures[index];
    rich_add(a, r, tone, text_of(words), at)->to = to;
    if (figures == 0)
        return;
    rich_add(a, r, tone, text_of(" (page\xC2\xA0"), at)->to = to;
    struct chunk *page =
        rich_add(a, r, tone, text_of(late_noughts(figures)), at);
    page->to = to;
    page->late = add_late(l, to, figures);
    rich_add(a, r, tone, text_of(")"), at)->to = to;
}

void refer_step(struct leaf *l, struct rich *r, struct tone tone,
                const struct node *step) {
    add(l, r, tone,
        arena_printf(l->composer.arena, "step\xC2\xA0%s",
                     step->number == NULL ? "" : step->number),
        step->index, step->at);
}

static const struct node *named_step(const struct leaf *l, struct text name) {
    for (size_t i = 0; i < l->guide->mark_count; i++) {
        const struct mark *m = l->guide->marks[i];
        if (m->kind == MARK_STEP && text_equal(text_trim(m->text), name))
            return m->node;
    }
    return NULL;
}

static bool same_letters(struct text a, struct text b) {
    if (a.len != b.len)
        return false;
    for (size_t i = 0; i < a.len; i++)
        if (tolower((unsigned char)a.start[i]) !=
            tolower((unsigned char)b.start[i]))
            return false;
    return true;
}

static const struct node *named_section(const struct leaf *l, struct text name,
                                        struct text *title) {
    for (size_t i = 0; i < l->guide->node_count; i++) {
        const struct node *n = l->guide->nodes[i];
        if (n->kind != NODE_SECTION || n->text == NULL)
            continue;
        for (const struct inlines *t = n->text; t != NULL; t = t->next)
            if (t->kind == INLINE_TEXT &&
                same_letters(text_trim(t->text), name)) {
                *title = text_trim(t->text);
                return n;
            }
    }
    return NULL;
}

static const struct block *named_block(const struct leaf *l, struct text name) {
    for (size_t i = 0; i < l->guide->block_count; i++) {
        const struct block *b = l->guide->blocks[i];
        bool shown = (b->kind->flags & KIND_PRINTS_TABLE) != 0 ||
                     b->kind->id == KIND_FIGURE;
        if (shown && b->node != NULL && text_equal(b->name, name))
            return b;
    }
    return NULL;
}

/* Letters in capitals and a figure: the number of another guide. */
static bool is_guide_number(struct text name) {
    bool capital = false, figure = false;
    for (size_t i = 0; i < name.len; i++) {
        capital |= name.start[i] >= 'A' && name.start[i] <= 'Z';
        figure |= name.start[i] >= '0' && name.start[i] <= '9';
    }
    return capital && figure;
}

static void report_unknown(struct leaf *l, const struct mark *see,
                           struct text name) {
    struct nearest near = nearest_to(name);
    for (size_t i = 0; i < l->guide->mark_count; i++)
        if (l->guide->marks[i]->kind == MARK_STEP)
            nearest_offer(&near, text_trim(l->guide->marks[i]->text));
    if (near.best != NULL)
        diag_add(l->composer.diags, DIAG_SEE_UNKNOWN, see->at,
                 "'%.*s' (did you mean '%.*s'?)", (int)name.len, name.start,
                 (int)near.best_len, near.best);
    else
        diag_add(l->composer.diags, DIAG_SEE_UNKNOWN, see->at,
                 "'%.*s': no step, reading, table, section or guide number",
                 (int)name.len, name.start);
}

void refer_see(struct leaf *l, struct rich *r, struct tone tone,
               const struct mark *see) {
    struct arena *a = l->composer.arena;
    struct text name = text_trim(see->text), title;
    const struct node *n = named_step(l, name);
    if (n != NULL && tree_step(n) != NULL) {
        refer_step(l, r, tone, tree_step(n));
        return;
    }
    const struct entry *row = refer_reading(l, name, NULL);
    if (row != NULL) {
        add(l, r, tone,
            arena_printf(a, "reading\xC2\xA0%.*s", (int)name.len, name.start),
            row_index(l, row), see->at);
        return;
    }
    const struct block *b = named_block(l, name);
    if (b != NULL) {
        add(l, r, tone,
            arena_printf(a, "%s\xC2\xA0%.*s", b->kind->name, (int)name.len,
                         name.start),
            b->node->index, see->at);
        return;
    }
    n = named_section(l, name, &title);
    if (n != NULL)
        add(l, r, tone, arena_printf(a, "“%.*s”", (int)title.len, title.start),
            n->index, see->at);
    else if (is_guide_number(name))
        rich_add(a, r, tone, name, see->at)->whole = true;
    else
        report_unknown(l, see, name);
}

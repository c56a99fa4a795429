/* refer.c - "step 14 (page 3)": what {see NAME} prints and where it leads.
 *
 * Page numbers are known only after the pages were broken, and are written
 * then. Layout is done again only where one takes more figures than the one
 * that was set aside for it, or where the target turned out not to be printed.
 */
#include "layout/refer.h"

#include "base/arena.h"
#include "layout/sheet.h"
#include "values/plain.h"

/* Nodes by index, then the rows of `limits` blocks as they stand. */
static size_t number_rows(struct leaf *l, size_t first) {
    struct targets *t = &l->targets;
    const struct guide *g = l->guide;
    t->first_row = arena_alloc(l->composer.arena, g->block_count + 1,
                               sizeof *t->first_row);
    for (size_t i = 0; i < g->block_count; i++) {
        t->first_row[i] = first;
        if (g->blocks[i]->kind->id == KIND_LIMITS)
            first += g->blocks[i]->entry_count;
    }
    return first;
}

static void forget(struct targets *t) {
    t->late_count = 0;
    for (size_t i = 0; i < t->count; i++)
        t->anchor[i].page = -1;
}

void refer_open(struct leaf *l) {
    struct arena *a = l->composer.arena;
    struct targets *t = &l->targets;
    t->known = landmark_collect(a, l->guide);
    t->count = number_rows(l, l->guide->node_count);
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
    size_t index = n->index; /* of a node of the template: none */
    return index < l->guide->node_count ? &l->targets.anchor[index] : NULL;
}

static size_t row_index(const struct leaf *l, const struct block *b,
                        const struct entry *row) {
    return l->targets.first_row[b->index] + (size_t)(row - b->entries);
}

struct anchor *refer_row(struct leaf *l, const struct block *b,
                         const struct entry *row) {
    return &l->targets.anchor[row_index(l, b, row)];
}

const struct entry *refer_reading(const struct leaf *l, struct text id,
                                  variant_set readers,
                                  const struct block **block) {
    const struct landmark *k = landmark_reading(l->targets.known, id);
    for (; k != NULL; k = landmark_reading_next(l->targets.known, k))
        if ((values_of_row(l->values, k->block, k->row) & readers) != 0) {
            *block = k->block;
            return k->row;
        }
    return NULL;
}

bool refer_is_owners(const struct leaf *l, const struct node *n) {
    const struct node *section = n == NULL ? NULL : tree_section(n);
    return l->guide->job != NULL && section != NULL &&
           part_by_title(tree_plain(l->composer.arena, section->text)) ==
               PART_OWNER;
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

/* An owner's sheet holds a part of the guide: what is not on it is in the
 * guide, which the shop has. */
static void add_guide(struct leaf *l, struct rich *r, struct tone tone,
                      struct span at) {
    struct text id = leaf_setting(l, "id");
    if (l->guide->job == NULL || id.len == 0)
        return;
    rich_add(l->composer.arena, r, tone, text_of(" of guide "), at);
    rich_add(l->composer.arena, r, tone, id, at)->whole = true;
}

/* "WORDS (page N)", linked, and parted only where that saves a line; no page
 * when it is not printed in this guide. */
static void add(struct leaf *l, struct rich *r, struct tone tone,
                const char *words, size_t index, struct span at) {
    struct targets *t = &l->targets;
    struct arena *a = l->composer.arena;
    const struct anchor *to = &t->anchor[index];
    size_t figures = t->figures[index];
    rich_add(a, r, tone, text_of(words), at)->to = to;
    if (figures == 0) {
        add_guide(l, r, tone, at);
        return;
    }
    struct chunk *open = rich_add(a, r, tone, text_of(" (page\xC2\xA0"), at);
    open->to = to;
    open->held = true;
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

/* As a section is headed in print: by the template, if it belongs to a part. */
static struct text heading(const struct leaf *l, const struct landmark *k) {
    const struct inlines *printed =
        sheet_heading(l->sheet, part_by_title(k->shown));
    if (printed != NULL)
        return tree_plain(l->composer.arena, printed);
    return k->node == NULL ? k->shown
                           : values_plain(l->values, l->composer.arena,
                                          k->node->text, l->applies);
}

/* The words of a reference. */
static const char *words(const struct leaf *l, const struct landmark *k) {
    struct arena *a = l->composer.arena;
    int len = (int)k->shown.len;
    const char *shown = k->shown.start;
    struct text head;
    switch (k->kind) {
    case LANDMARK_STEP:
        return arena_printf(a, "step\xC2\xA0%s",
                            k->node->number == NULL ? "" : k->node->number);
    case LANDMARK_READING:
        return arena_printf(a, "reading\xC2\xA0%.*s", len, shown);
    case LANDMARK_BLOCK:
        return arena_printf(a, "%s\xC2\xA0%.*s", k->block->kind->name, len,
                            shown);
    case LANDMARK_SECTION:
    case LANDMARK_SLUG:
        head = heading(l, k);
        return arena_printf(a, "“%.*s”", (int)head.len, head.start);
    case LANDMARK_GUIDE:
        break;
    }
    return arena_printf(a, "%.*s", len, shown);
}

/* Of rows of one id, each for some variants, the first that is printed. */
static const struct landmark *printed(const struct leaf *l,
                                      const struct landmark *k) {
    for (const struct landmark *row = k; row != NULL;
         row = landmark_reading_next(l->targets.known, row))
        if ((values_of_row(l->values, row->block, row->row) & l->applies) != 0)
            return row;
    return k;
}

/* Index of its anchor. */
static size_t index_of(const struct leaf *l, const struct landmark *k) {
    if (k->kind == LANDMARK_READING)
        k = printed(l, k);
    if (k->row != NULL)
        return row_index(l, k->block, k->row);
    return k->block != NULL ? k->block->node->index : k->node->index;
}

/* What a reading measures, in quotes; NULL: it is not said. */
static const char *characteristic(const struct leaf *l,
                                  const struct landmark *k) {
    const char *what = values_print_cell(l->values, l->composer.arena, k->block,
                                         k->row, "characteristic", l->applies);
    return what == NULL ? NULL : arena_printf(l->composer.arena, "“%s”", what);
}

/* A name that leads nowhere was reported by checks/. */
void refer_see(struct leaf *l, struct rich *r, struct tone tone,
               const struct mark *see) {
    struct arena *a = l->composer.arena;
    const struct landmark *k =
        landmark_find(l->targets.known, text_trim(see->text), see->scope);
    if (k == NULL)
        return;
    const char *what =
        k->kind == LANDMARK_READING && refer_is_owners(l, see->node)
            ? characteristic(l, printed(l, k))
            : NULL;
    if (k->kind == LANDMARK_GUIDE)
        rich_add(a, r, tone, k->shown, see->at)->whole = true;
    else if (what != NULL)
        rich_add(a, r, tone, text_of(what), see->at);
    else
        add(l, r, tone, words(l, k), index_of(l, k), see->at);
}

const struct anchor *refer_link(const struct leaf *l, struct text url,
                                const struct scope *from) {
    if (!text_starts(url, "#"))
        return NULL;
    const struct landmark *k =
        landmark_link(l->targets.known, text_part(url, 1, url.len), from);
    return k == NULL ? NULL : &l->targets.anchor[index_of(l, k)];
}

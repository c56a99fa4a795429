/* catalogue.c - the hazard catalogue: the shipped one, and over it the shop's.
 *
 * A shop adds rows, words and conditions, rewords, and may raise a signal word.
 * What it weakens needs a reason and an approver, which each guide prints. */
#include "checks/catalogue.h"

#include "base/arena.h"
#include "base/diag.h"
#include "checks/catalogue_row.h"
#include "source/file.h"
#include "source/kind.h"
#include "source/read.h"
#include "source/tree.h"

#include <string.h>

/* templates/hazards.md as it was when the program was built: shipped.S */
extern const char shipped_hazards[], shipped_hazards_end[];

/* The three texts of a panel stand together; a row that the checks judge may do
 * without. */
static bool is_complete(const struct hazard *h) {
    int texts =
        (h->hazard != NULL) + (h->consequence != NULL) + (h->avoidance != NULL);
    return h->title != NULL &&
           (texts == 3 || (texts == 0 && h->action != ACTION_INSERT));
}

static struct text shipped_text(void) {
    return (struct text){shipped_hazards,
                         (size_t)(shipped_hazards_end - shipped_hazards)};
}

/* Room for the blocks of one more file. */
static void make_room(struct arena *a, struct catalogue *k, size_t more) {
    k->row =
        arena_grow(a, k->row, k->count, k->count + more + 1, sizeof *k->row);
    k->order = arena_grow(a, k->order, k->order_count,
                          k->order_count + more + 1, sizeof *k->order);
    k->style = arena_grow(a, k->style, k->style_count,
                          k->style_count + more + 1, sizeof *k->style);
    k->lowered = arena_grow(a, k->lowered, k->lowered_count,
                            k->lowered_count + more + 1, sizeof *k->lowered);
}

/* Whether the shop says why and who; its words are kept for the page. */
static bool is_answered(struct compile *c, struct catalogue *k,
                        const struct block *b, const char *what) {
    const char *reason = catalogue_row_setting(c->arena, b, "reason");
    const char *approver = catalogue_row_setting(c->arena, b, "approver");
    if (reason == NULL || approver == NULL) {
        diag_add(c->diags, DIAG_CATALOGUE_LOWERED, b->at,
                 "%.*s: %s; write reason: and approver:, which each guide "
                 "prints",
                 (int)b->name.len, b->name.start, what);
        return false;
    }
    k->lowered[k->lowered_count++] = (struct waiver){
        NULL, text_cstr(c->arena, b->name), what, reason, approver};
    return true;
}

/* What the shop's row takes from the shipped one, in words; NULL: nothing. */
static const char *weakened(struct arena *a, const struct block *b,
                            const struct hazard *was,
                            const struct hazard *own) {
    if (catalogue_row_dropped(a, b))
        return "set aside by the shop";
    if (own->signal > was->signal)
        return "lower signal word";
    if (own->action < was->action)
        return "weaker action";
    if (own->first > was->first || own->last < was->last)
        return "fewer model years";
    if (own->spares_lithium && !was->spares_lithium)
        return "called for less often";
    for (size_t i = 0; i < own->settled.count; i++)
        if (!catalogue_lists(&was->settled, own->settled.item[i]))
            return "asked for less often";
    return NULL;
}

static void remove_row(struct catalogue *k, struct hazard *row) {
    size_t behind = (size_t)(k->row + k->count - row) - 1;
    memmove(row, row + 1, behind * sizeof *row);
    k->count--;
}

static void add_hazard(struct compile *c, struct catalogue *k,
                       const struct block *b, size_t shipped) {
    struct hazard *was = NULL;
    for (size_t i = 0; i < k->count; i++)
        if (text_is(b->name, k->row[i].id))
            was = &k->row[i];
    if (was != NULL && (size_t)(was - k->row) >= shipped) {
        diag_add(c->diags, DIAG_NAME_TWICE, b->at, "'%s'", was->id);
        return;
    }
    struct hazard h = catalogue_row_hazard(c, b, was);
    if (!is_complete(&h)) {
        diag_add(c->diags, DIAG_SETTING_MISSING, b->at,
                 "a panel needs title, hazard, consequence and avoidance");
        return;
    }
    const char *less = was == NULL ? NULL : weakened(c->arena, b, was, &h);
    if (less != NULL && !is_answered(c, k, b, less))
        return;
    if (was != NULL && catalogue_row_dropped(c->arena, b))
        remove_row(k, was);
    else if (was != NULL)
        *was = h;
    else
        k->row[k->count++] = h;
}

static void add_order(struct compile *c, struct catalogue *k,
                      const struct block *b) {
    for (size_t i = 0; i < k->order_count; i++) {
        if (!text_is(b->name, k->order[i].id))
            continue;
        if (!catalogue_row_dropped(c->arena, b))
            k->order[i] = catalogue_row_order(c, b, &k->order[i]);
        else if (is_answered(c, k, b, "set aside by the shop"))
            k->order[i] = k->order[--k->order_count];
        return;
    }
    struct order o = catalogue_row_order(c, b, NULL);
    if (o.title == NULL || o.step.count + o.step_words.count == 0)
        diag_add(c->diags, DIAG_SETTING_MISSING, b->at,
                 "a rule of order needs title, and step or step words");
    else
        k->order[k->order_count++] = o;
}

/* A style rule binds nobody: the shop's takes the place of the shipped one. */
static void add_style(struct compile *c, struct catalogue *k,
                      const struct block *b) {
    struct style_rule rule = catalogue_row_style(c, b);
    for (size_t i = 0; i < k->style_count; i++)
        if (strcmp(k->style[i].id, rule.id) == 0) {
            k->style[i] = rule;
            return;
        }
    k->style[k->style_count++] = rule;
}

static void add_file(struct compile *c, struct catalogue *k,
                     const struct guide *g) {
    size_t own = k->count, count = k->count;
    make_room(c->arena, k, g->block_count);
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (b->kind->id == KIND_ORDER)
            add_order(c, k, b);
        else if (b->kind->id == KIND_STYLE)
            add_style(c, k, b);
        else if (b->kind->id == KIND_HAZARD) {
            add_hazard(c, k, b, own);
            own -= k->count < count; /* one was set aside */
            count = k->count;
        }
    }
}

static struct catalogue *shipped(struct compile *c) {
    struct catalogue *k = arena_alloc(c->arena, 1, sizeof *k);
    add_file(
        c, k,
        source_read_catalogue_text(c, "templates/hazards.md", shipped_text()));
    return k;
}

const struct catalogue *catalogue_shipped(struct compile *c) {
    return shipped(c);
}

const struct catalogue *catalogue_read(struct compile *c) {
    if (c->catalogue != NULL)
        return c->catalogue;
    struct catalogue *k = shipped(c);
    const char *own =
        strcmp(c->library, ".") == 0
            ? "templates/hazards.md"
            : arena_printf(c->arena, "%s/templates/hazards.md", c->library);
    if (!file_is_there(c, own))
        return k;
    struct source *src = file_read_given(c, own);
    if (src != NULL && text_equal(src->text, shipped_text()))
        return k; /* a copy that nobody changed */
    const struct guide *g = source_read_catalogue(c, src);
    if (g == NULL)
        return NULL;
    add_file(c, k, g);
    return k;
}

const struct catalogue *catalogue_shared(struct compile *c) {
    const struct catalogue *k = catalogue_read(c);
    return diag_count(c->diags, LEVEL_WARNING) == 0 ? k : NULL;
}

const struct hazard *catalogue_find(const struct catalogue *k, const char *id) {
    for (size_t i = 0; i < k->count; i++)
        if (strcmp(k->row[i].id, id) == 0)
            return &k->row[i];
    return NULL;
}

bool catalogue_lists(const struct items *list, struct text word) {
    for (size_t i = 0; i < list->count; i++)
        if (text_equal(list->item[i], word))
            return true;
    return false;
}

/* prose.c - running text of a guide: inlines to rich text, nodes to slabs. */
#include "layout/prose.h"

#include "base/arena.h"
#include "base/diag.h"
#include "layout/address.h"
#include "layout/exhibit.h"
#include "layout/numbered.h"
#include "layout/plate.h"
#include "layout/refer.h"
#include "layout/revise.h"
#include "values/job_result.h"
#include "values/plain.h"

#include <math.h>
#include <string.h>

static const struct span nowhere;

struct spot prose_body(const struct leaf *l, variant_set variants) {
    return (struct spot){.x = l->style.rail,
                         .width = l->style.measure,
                         .type = l->style.prose,
                         .value = FACE_REGULAR,
                         .variants = variants};
}

static void add_reading(struct leaf *l, struct spot const *spot,
                        const struct mark *m) {
    struct boxes *b = spot->boxes;
    if (b == NULL)
        return;
    if (b->count == b->room) {
        size_t room = b->room == 0 ? 4 : b->room * 2;
        b->reading = arena_grow(l->composer.arena, b->reading, b->count, room,
                                sizeof *b->reading);
        b->room = room;
    }
    b->reading[b->count++] = m;
}

/* As it was left, else as it was found; NULL: the job has no reading of it. */
static const char *taken(struct leaf *l, const struct entry *row) {
    const struct job_reading *list;
    size_t count = values_job_readings(l->values, &list);
    for (size_t i = 0; i < count; i++) {
        const char *left = list[i].left_text;
        if (list[i].row == row)
            return left != NULL ? left : list[i].found_text;
    }
    return NULL;
}

/* A reading on a job's sheet: "current in the feed (4.1 A)". False: it is told
 * by its id. */
static bool add_taken(struct leaf *l, struct rich *r, const struct mark *m,
                      struct tone tone, const struct spot *spot) {
    const struct block *b;
    const struct entry *row =
        refer_is_owners(l, m->node)
            ? refer_reading(l, text_trim(m->text), spot->variants, &b)
            : NULL;
    const struct cell *what =
        row == NULL ? NULL : tree_cell(b, row, "characteristic");
    if (what == NULL)
        return false;
    prose_add_cell(l, r, what, spot);
    const char *figure = taken(l, row);
    if (figure == NULL)
        return true;
    struct tone bold = tone;
    bold.face = FACE_BOLD;
    rich_add(l->composer.arena, r, tone, text_of(" ("), m->at);
    rich_add(l->composer.arena, r, bold, text_of(figure), m->at)->whole = true;
    rich_add(l->composer.arena, r, tone, text_of(")"), m->at);
    return true;
}

static void add_mark(struct leaf *l, struct rich *r, const struct mark *m,
                     struct tone tone, const struct spot *spot) {
    struct arena *a = l->composer.arena;
    struct tone value = tone;
    if (spot->value != FACE_REGULAR)
        value.face = spot->value;
    switch (m->kind) {
    case MARK_VALUE: {
        const char *text = values_print_mark(l->values, a, m, spot->variants);
        if (text != NULL)
            rich_add(a, r, value, text_of(text), m->at)->whole = true;
        return;
    }
    case MARK_READING:
        value.face = FACE_BOLD;
        if (!add_taken(l, r, m, tone, spot))
            rich_add(a, r, value, text_trim(m->text), m->at)->whole = true;
        add_reading(l, spot, m);
        return;
    case MARK_INITIAL:
        if (spot->boxes != NULL)
            spot->boxes->initial = true;
        return;
    case MARK_SEE:
        refer_see(l, r, tone, m);
        return;
    case MARK_FOR:
    case MARK_TOUCHES:
    case MARK_DOES:
    case MARK_HOLD:
    case MARK_STEP:
    case MARK_DEFER:
    case MARK_SHOP_ONLY:
    case MARK_OWNER_ONLY:
        return; /* they say what the text is, not what it prints */
    }
}

static void add_inlines(struct leaf *l, struct rich *r, const struct inlines *t,
                        struct tone tone, const struct spot *spot);

/* What is in the link leads where it does, but for a {see} of its own. Paper
 * leads nowhere: the address is printed. */
static void add_link(struct leaf *l, struct rich *r, const struct inlines *t,
                     struct tone tone, const struct spot *spot) {
    const struct anchor *to = refer_link(l, t->url, t->scope);
    size_t from = r->count;
    add_inlines(l, r, t->first, tone, spot);
    for (size_t i = from; i < r->count; i++) {
        struct chunk *k = &r->chunk[i];
        if (k->to != NULL)
            continue;
        k->to = to;
        if (to == NULL)
            k->uri = t->url;
    }
    if (to == NULL)
        address_print(l->composer.arena, r, from, t->url, tone);
}

static void add_inlines(struct leaf *l, struct rich *r, const struct inlines *t,
                        struct tone tone, const struct spot *spot) {
    struct arena *a = l->composer.arena;
    for (; t != NULL; t = t->next) {
        struct tone inner = tone;
        switch (t->kind) {
        case INLINE_TEXT:
            rich_add(a, r, tone, t->text, t->at);
            break;
        case INLINE_SPACE:
            rich_add(a, r, tone, text_of(" "), t->at);
            break;
        case INLINE_BREAK:
            rich_line_end(a, r);
            break;
        case INLINE_CODE:
            inner.face = FACE_MONO;
            rich_add(a, r, inner, t->text, t->at);
            break;
        case INLINE_EMPHASIS:
            inner.face = FACE_OBLIQUE;
            add_inlines(l, r, t->first, inner, spot);
            break;
        case INLINE_STRONG:
            inner.face = FACE_BOLD;
            add_inlines(l, r, t->first, inner, spot);
            break;
        case INLINE_LINK:
            add_link(l, r, t, tone, spot);
            break;
        case INLINE_IMAGE:
            diag_add(l->composer.diags, DIAG_IMAGE_IN_TEXT, t->at, NULL);
            break;
        case INLINE_MARK:
            add_mark(l, r, t->mark, tone, spot);
            break;
        }
    }
}

void prose_add(struct leaf *l, struct rich *r, const struct inlines *t,
               const struct spot *spot) {
    add_inlines(l, r, t, leaf_tone(spot->type, FACE_REGULAR), spot);
}

void prose_add_choices(struct leaf *l, struct rich *r,
                       const struct choice *choices, size_t count,
                       const struct spot *spot) {
    struct arena *a = l->composer.arena;
    struct tone tone = leaf_tone(spot->type, FACE_REGULAR);
    size_t printed = 0;
    for (size_t i = 0; i < count; i++) {
        struct spot inner = *spot;
        inner.variants &= values_tagged(l->values, &choices[i].tags);
        if (inner.variants == 0)
            continue;
        if (printed++ > 0)
            rich_add(a, r, tone, text_of("; "), nowhere);
        if (inner.variants != spot->variants) {
            const char *names =
                values_variant_names(l->values, a, inner.variants);
            rich_add(a, r, tone, text_of(arena_printf(a, "%s: ", names)),
                     nowhere);
        }
        if (choices[i].prose != NULL)
            prose_add(l, r, choices[i].prose, &inner);
        else
            rich_add(a, r, tone, choices[i].text, nowhere);
    }
}

void prose_add_cell(struct leaf *l, struct rich *r, const struct cell *cell,
                    const struct spot *spot) {
    if (cell->choice_count > 1)
        prose_add_choices(l, r, cell->choices, cell->choice_count, spot);
    else
        prose_add(l, r, cell->prose, spot);
}

static const struct mark *mark_of(const struct node *n, enum mark_kind kind) {
    for (size_t i = 0; i < n->mark_count; i++)
        if (n->marks[i]->kind == kind)
            return n->marks[i];
    return NULL;
}

variant_set prose_variants(struct leaf *l, const struct node *n,
                           variant_set variants) {
    const struct mark *m = mark_of(n, MARK_FOR);
    return m == NULL ? variants : variants & values_tagged(l->values, &m->list);
}

void prose_add_deferred(struct leaf *l, struct rich *r, struct tone tone,
                        struct text trade) {
    if (trade.len == 0)
        return;
    const char *article = strchr("aeiouAEIOU", trade.start[0]) ? "an" : "a";
    rich_add(
        l->composer.arena, r, tone,
        text_of(arena_printf(l->composer.arena, "Have this done by %s %.*s. ",
                             article, (int)trade.len, trade.start)),
        nowhere);
}

void prose_add_lead(struct leaf *l, struct rich *r, const struct node *n,
                    const struct spot *spot, variant_set inner) {
    struct arena *a = l->composer.arena;
    struct tone tone = leaf_tone(spot->type, FACE_BOLD);
    if (inner != spot->variants) {
        const char *names = values_variant_names(l->values, a, inner);
        rich_add(a, r, tone, text_of(arena_printf(a, "%s only: ", names)),
                 mark_of(n, MARK_FOR)->at);
    }
    const struct mark *m = mark_of(n, MARK_DEFER);
    if (m != NULL)
        prose_add_deferred(l, r, tone, text_trim(m->text));
}

static void set_paragraph(struct leaf *l, const struct node *n,
                          const struct spot *spot, struct spot *inner) {
    struct rich r = {0};
    const struct inlines *image = tree_image(n);
    if (image != NULL) {
        plate_set_image(l, n, image, spot, inner);
        return;
    }
    prose_add_lead(l, &r, n, spot, inner->variants);
    prose_add(l, &r, n->text, inner);
    if (rich_empty(&r))
        return;
    flow_space(&l->flow, 6);
    revise_begin(l, n);
    struct slab *s =
        flow_paragraph(&l->flow, &r, spot->x, spot->width, spot->type, n->at);
    revise_end(l);
    if (s != NULL && s->anchor == NULL)
        s->anchor = refer_node(l, n);
    flow_space(&l->flow, 6);
}

/* Where lines already stand on the grid, items of one line each follow like
 * lines: on the next place of the grid they would look like steps. */
static bool is_tight(const struct leaf *l, const struct spot *spot,
                     const size_t *first, size_t count) {
    double grid = l->style.grid, over = fmod(spot->type.leading, grid);
    bool tight = grid > 0 && fmin(over, grid - over) < 0.01;
    for (size_t i = 0; i < count && tight; i++) {
        struct slab *const *line = &l->flow.slab[first[i]];
        tight = first[i] + 1 == l->flow.count ||
                line[0]->at.start != line[1]->at.start; /* of one paragraph */
    }
    return tight;
}

/* Items stand closer than paragraphs, those of a list in a list all of them. */
static void close_items(struct leaf *l, const struct node *n,
                        const struct spot *spot, const size_t *first,
                        size_t count) {
    bool inner = n->parent != NULL && n->parent->kind == NODE_BULLET;
    double space = is_tight(l, spot, first, count) ? 0 : 3;
    for (size_t i = inner ? 0 : 1; i < count; i++)
        l->flow.slab[first[i]]->space = space;
}

static size_t count_items(const struct node *n) {
    size_t count = 0;
    for (const struct node *item = n->first; item; item = item->next)
        count++;
    return count;
}

static void set_bullets(struct leaf *l, const struct node *n,
                        const struct spot *spot) {
    const double hang = 13;
    struct tagger *tags = l->composer.tags;
    size_t outer = tag_open(tags, TAG_LIST, (struct text){NULL, 0});
    size_t count = 0, *first = arena_alloc(l->composer.arena, count_items(n),
                                           sizeof *first);
    for (const struct node *item = n->first; item; item = item->next) {
        size_t from = l->flow.count;
        struct spot inner = *spot;
        inner.x += hang;
        inner.width -= hang;
        flow_space(&l->flow, 3);
        if (item != n->first && (item == n->first->next || item->next == NULL))
            flow_bond(&l->flow, BOND_CLOSE); /* none stands alone */
        size_t list = tag_open(tags, TAG_ITEM, (struct text){NULL, 0});
        tag_open(tags, TAG_BODY, (struct text){NULL, 0});
        prose_nodes(l, item->first, &inner);
        tag_open_label(tags);
        if (l->flow.count == from) {
            tag_close(tags, list);
            continue;
        }
        struct slab *s = l->flow.slab[from];
        size_t ops = s->op_count;
        slab_text(&l->composer, s, spot->x + 1, paragraph_baseline(spot->type),
                  FACE_REGULAR, spot->type.size, style_black(), text_of("•"));
        slab_to_front(&l->composer, s, ops);
        tag_close(tags, list);
        first[count++] = from;
    }
    close_items(l, n, spot, first, count);
    tag_close(tags, outer);
    flow_space(&l->flow, 6);
}

/* A quotation is a note: a bar beside it, smaller letters. */
static void set_quote(struct leaf *l, const struct node *n,
                      const struct spot *spot) {
    struct spot inner = *spot;
    inner.x += 12;
    inner.width -= 12;
    inner.type = l->style.note;
    flow_space(&l->flow, 8);
    size_t from = l->flow.count;
    struct tagger *tags = l->composer.tags;
    size_t outer = tag_open(tags, TAG_QUOTE, (struct text){NULL, 0});
    prose_nodes(l, n->first, &inner);
    tag_close(tags, outer);
    for (size_t i = from; i < l->flow.count; i++) {
        struct slab *s = l->flow.slab[i];
        /* The grid may set it lower than it asked for. */
        double top = i == from || s->space == 0 ? 0 : -s->space - l->style.grid;
        slab_rule(&l->composer, s, spot->x + 1.5, top, spot->x + 1.5, s->height,
                  1.5);
    }
    flow_space(&l->flow, 8);
}

/* One line of it: blanks count, and nothing is broken. */
static void set_verbatim_line(struct leaf *l, const struct node *n,
                              const struct spot *spot, struct text line) {
    const struct composer *c = &l->composer;
    struct type type = l->style.least;
    struct slab *s = flow_slab(&l->flow, type.leading, n->at);
    double wide = shape_width(c->shaper, FACE_MONO, type.size, line);
    size_t outer = tag_open_text(c->tags);
    if (wide > spot->width + 0.01)
        diag_add(c->diags, DIAG_TOO_WIDE, place_of(n->at.src, line),
                 "the line takes %.0f pt, there are %.0f pt", wide,
                 spot->width);
    if (line.len > 0)
        slab_text(c, s, spot->x, paragraph_baseline(type), FACE_MONO, type.size,
                  style_black(), line);
    tag_close(c->tags, outer);
}

/* Each source line as it stands. */
static void set_verbatim(struct leaf *l, const struct node *n,
                         const struct spot *spot) {
    struct text t = n->verbatim;
    flow_space(&l->flow, 6);
    for (size_t at = 0, line = 0; at < t.len; line++) {
        const char *end = memchr(t.start + at, '\n', t.len - at);
        size_t stop = end == NULL ? t.len : (size_t)(end - t.start);
        if (line > 0)
            flow_bond(&l->flow, BOND_WEAK);
        set_verbatim_line(l, n, spot, text_part(t, at, stop));
        at = stop + 1;
    }
    flow_space(&l->flow, 6);
}

void prose_nodes(struct leaf *l, const struct node *first,
                 const struct spot *spot) {
    for (const struct node *n = first; n != NULL; n = n->next) {
        struct spot inner = *spot;
        inner.variants = prose_variants(l, n, spot->variants);
        if (inner.variants == 0 && n->kind != NODE_STEPS)
            continue;
        switch (n->kind) {
        case NODE_PARAGRAPH:
            set_paragraph(l, n, spot, &inner);
            break;
        case NODE_HEADING:
            leaf_subheading(l,
                            values_plain(l->values, l->composer.arena, n->text,
                                         spot->variants),
                            l->style.rail, refer_node(l, n), n->at);
            break;
        case NODE_STEPS:
            numbered_set(l, n, spot);
            break;
        case NODE_BULLETS:
            set_bullets(l, n, spot);
            break;
        case NODE_QUOTE:
            set_quote(l, n, spot);
            break;
        case NODE_VERBATIM:
            set_verbatim(l, n, spot);
            break;
        case NODE_BLOCK:
            exhibit_set(l, n->block, spot);
            break;
        case NODE_RULE:
            flow_space(&l->flow, 10);
            slab_rule(&l->composer, flow_slab(&l->flow, 0.5, n->at), spot->x, 0,
                      spot->x + spot->width, 0, 0.5);
            flow_space(&l->flow, 10);
            break;
        case NODE_GUIDE:
        case NODE_SECTION:
        case NODE_STEP:
        case NODE_BULLET:
            break; /* never beside paragraphs */
        }
    }
}

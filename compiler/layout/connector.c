/* connector.c - the face of a connector: cavities where they stand.
 *
 * `face: 1 2 3 / 4 5 -` is two rows of cavities from the top; a hyphen is a
 * place without one. */
#include "layout/connector.h"

#include "base/arena.h"
#include "base/diag.h"
#include "layout/refer.h"
#include "layout/revise.h"
#include "layout/shape.h"
#include "layout/swatch.h"

#include <math.h>

struct cavity {
    struct text name;         /* "-": none there */
    size_t row, place;        /* from 0, from the top left */
    const struct entry *wire; /* what is in it, or NULL */
};

struct front {
    struct cavity *list;
    size_t count, rows, places; /* places: of the longest row */
};

enum { CAVITIES_MAX = 200 };

static struct front read_face(struct leaf *l, const struct entry *e) {
    struct front f = {
        .list = arena_alloc(l->composer.arena, CAVITIES_MAX, sizeof *f.list)};
    struct text rest = e->choices[0].text, line;
    while (text_next_part(&rest, '/', &line)) {
        struct text words = text_squeezed(l->composer.arena, text_trim(line));
        struct text word;
        size_t place = 0;
        while (text_next_part(&words, ' ', &word))
            if (word.len > 0 && f.count < CAVITIES_MAX)
                f.list[f.count++] =
                    (struct cavity){word, f.rows, place++, NULL};
        f.places = place > f.places ? place : f.places;
        f.rows++;
    }
    return f;
}

static struct cavity *find(struct front *f, struct text name) {
    for (size_t i = 0; i < f->count; i++)
        if (!text_is(name, "-") && text_equal(f->list[i].name, name))
            return &f->list[i];
    return NULL;
}

static void refuse(struct leaf *l, struct span at, struct text name,
                   const char *why) {
    diag_add(l->composer.diags, DIAG_CAVITY, at, "'%.*s' %s", (int)name.len,
             name.start, why);
}

static void check_face(struct leaf *l, const struct front *f, struct span at) {
    for (size_t i = 0; i < f->count; i++)
        for (size_t k = 0; k < i; k++)
            if (!text_is(f->list[i].name, "-") &&
                text_equal(f->list[i].name, f->list[k].name))
                refuse(l, at, f->list[i].name, "is twice on the face");
}

/* The rows of the spot's variants into their cavities. */
static void place_wires(struct leaf *l, const struct block *b, struct front *f,
                        const struct spot *spot) {
    for (size_t i = 0; i < b->entry_count; i++) {
        const struct entry *e = &b->entries[i];
        const struct cell *cell = tree_cell(b, e, "cavity");
        if (e->kind != ENTRY_ROW || cell == NULL ||
            (spot->variants & values_tagged(l->values, &e->tags)) == 0)
            continue;
        struct cavity *cavity = find(f, cell->text);
        if (cavity == NULL)
            refuse(l, cell->at, cell->text, "is not on the face");
        else if (cavity->wire != NULL && e->tags.count == 0)
            refuse(l, cell->at, cell->text, "holds a wire already");
        else
            cavity->wire = e;
    }
}

/* The colour where it is one for all of these variants. */
static bool colour_of(struct leaf *l, const struct block *b,
                      const struct entry *row, struct swatch *out) {
    const struct cell *cell = tree_cell(b, row, "colour");
    const char *near;
    if (cell == NULL || cell->text.len == 0 || cell->choice_count > 1)
        return false;
    if (swatch_find(cell->text, out, &near))
        return true;
    diag_add(l->composer.diags, DIAG_COLOUR_UNKNOWN, cell->at, "'%.*s'%s%s%s",
             (int)cell->text.len, cell->text.start,
             near == NULL ? "" : " (did you mean '", near == NULL ? "" : near,
             near == NULL ? "" : "'?)");
    return false;
}

struct place {
    double x, y, width, height;
};

static void draw_middle(struct leaf *l, struct slab *s, struct place p,
                        double baseline, enum face face, double size,
                        struct text text) {
    const struct composer *c = &l->composer;
    double wide = shape_width(c->shaper, face, size, text);
    if (wide > p.width - 3) {
        size *= (p.width - 3) / wide;
        wide = p.width - 3;
    }
    slab_text(c, s, p.x + (p.width - wide) / 2, baseline, face, size,
              style_black(), text);
}

static void draw_cavity(struct leaf *l, const struct block *b, struct slab *s,
                        const struct cavity *v, struct place p) {
    const struct composer *c = &l->composer;
    double size = l->style.table.size, small = l->style.foot.size;
    struct swatch colour;
    slab_box(c, s, p.x, p.y, p.width, p.height, 0.8);
    draw_middle(l, s, p, p.y + size + 2, FACE_BOLD, size, v->name);
    if (v->wire == NULL) {
        draw_middle(l, s, p, p.y + p.height - 6, FACE_REGULAR, small,
                    text_of("empty"));
        return;
    }
    if (!colour_of(l, b, v->wire, &colour))
        return;
    swatch_draw(c, s, &colour, p.x + 5, p.y + size + 6, p.width - 10, 8);
    draw_middle(l, s, p, p.y + p.height - 4, FACE_REGULAR, small,
                text_of(swatch_letters(c->arena, &colour)));
}

static double cell_height(const struct leaf *l) {
    return l->style.table.size + l->style.foot.size + 20;
}

static struct slab *draw_face(struct leaf *l, const struct block *b,
                              const struct front *f, double x, double width) {
    const struct composer *c = &l->composer;
    const double edge = 6, gap = 4;
    double high = cell_height(l);
    double wide = fmin(l->style.foot.size * 5.2,
                       (width - 2 * edge + gap) / (double)f->places - gap);
    struct slab *s =
        slab_new(c, 2 * edge - gap + (high + gap) * (double)f->rows, b->at);
    slab_box(c, s, x, 0, 2 * edge - gap + (wide + gap) * (double)f->places,
             s->height, 1.6);
    for (size_t i = 0; i < f->count; i++) {
        const struct cavity *v = &f->list[i];
        struct place p = {x + edge + (wide + gap) * (double)v->place,
                          edge + (high + gap) * (double)v->row, wide, high};
        if (!text_is(v->name, "-"))
            draw_cavity(l, b, s, v, p);
    }
    return s;
}

/* "Connector C1, seen from the wire side" */
static void add_caption(struct leaf *l, struct slab *s, const struct block *b,
                        double x, double width) {
    const struct composer *c = &l->composer;
    struct rich r = {0};
    struct text part = leaf_block_setting(l, b, "connector");
    struct text side = leaf_block_setting(l, b, "viewed from");
    leaf_add(l, &r, l->style.note, FACE_BOLD,
             arena_printf(c->arena, "Connector %.*s", (int)b->name.len,
                          b->name.start));
    leaf_add(l, &r, l->style.note, FACE_REGULAR,
             arena_printf(c->arena, "%s%.*s, seen from the %.*s",
                          part.len > 0 ? ", " : "", (int)part.len,
                          part.len > 0 ? part.start : "", (int)side.len,
                          side.start));
    const struct lines *lines =
        paragraph_break(c, words_of(c, &r), width, l->style.note, 1);
    s->height += 4 + paragraph_draw_all(c, s, lines, x, s->height + 4);
}

void connector_set(struct leaf *l, const struct block *b,
                   const struct spot *spot) {
    const struct entry *e = tree_setting(b, "face");
    if (e == NULL || e->choice_count == 0)
        return;
    struct front f = read_face(l, e);
    double width = leaf_width(l) - spot->x;
    check_face(l, &f, e->at);
    place_wires(l, b, &f, spot);
    if (f.places == 0)
        return;
    struct tagger *tags = l->composer.tags;
    size_t outer = tag_open(
        tags, TAG_FIGURE,
        text_of(arena_printf(l->composer.arena, "The face of connector %.*s",
                             (int)b->name.len, b->name.start)));
    struct slab *s = draw_face(l, b, &f, spot->x, width);
    tag_close(tags, outer);
    add_caption(l, s, b, spot->x, width);
    s->anchor = refer_node(l, b->node);
    flow_space(&l->flow, 8);
    revise_add_slab(l, b->node, s);
    flow_bond(&l->flow, BOND_FIRM);
}

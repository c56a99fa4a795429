/* connector.c - the face of a connector: cavities where they stand.
 *
 * `face: 1 2 3 / 4 5 -` is two rows of cavities from the top; a hyphen is a
 * place without one. With `shape: round` the rows are rings from the outside
 * in, each clockwise from the top; one cavity alone is the centre. */
#include "layout/connector.h"

#include "base/arena.h"
#include "base/diag.h"
#include "layout/refer.h"
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
    bool round;
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

/* Its name, the wire's colour, and the letters for it. */
static void fill_cavity(struct leaf *l, const struct block *b, struct slab *s,
                        const struct cavity *v, struct place p) {
    const struct composer *c = &l->composer;
    double size = l->style.table.size, small = l->style.foot.size;
    struct swatch colour;
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

/* The notch or rib that a connector is turned by: inside the rim, whose middle
 * and half width and height these are. */
static void draw_key(struct leaf *l, struct slab *s, const struct block *b,
                     struct place rim) {
    static const struct {
        const char *side;
        int x, y;
    } sides[] = {
        {"top", 0, -1}, {"right", 1, 0}, {"bottom", 0, 1}, {"left", -1, 0}};
    const double half = 5, deep = 4.5;
    struct text side = leaf_block_setting(l, b, "key");
    for (size_t i = 0; i < sizeof sides / sizeof sides[0]; i++) {
        if (!text_is(side, sides[i].side))
            continue;
        double wide = sides[i].x == 0 ? 2 * half : deep;
        double high = sides[i].y == 0 ? 2 * half : deep;
        double x = rim.x + sides[i].x * (rim.width - deep / 2);
        double y = rim.y + sides[i].y * (rim.height - deep / 2);
        slab_fill(&l->composer, s, x - wide / 2, y - high / 2, wide, high,
                  style_black());
    }
}

static struct slab *draw_rows(struct leaf *l, const struct block *b,
                              const struct front *f, double x, double width,
                              double *right) {
    const struct composer *c = &l->composer;
    const double edge = 6, gap = 4;
    double high = cell_height(l);
    double wide = fmin(l->style.foot.size * 5.2,
                       (width - 2 * edge + gap) / (double)f->places - gap);
    struct slab *s =
        slab_new(c, 2 * edge - gap + (high + gap) * (double)f->rows, b->at);
    double across = 2 * edge - gap + (wide + gap) * (double)f->places;
    slab_box(c, s, x, 0, across, s->height, 1.6);
    *right = x + across;
    draw_key(l, s, b,
             (struct place){x + across / 2, s->height / 2, across / 2,
                            s->height / 2});
    for (size_t i = 0; i < f->count; i++) {
        const struct cavity *v = &f->list[i];
        struct place p = {x + edge + (wide + gap) * (double)v->place,
                          edge + (high + gap) * (double)v->row, wide, high};
        if (text_is(v->name, "-"))
            continue;
        slab_box(c, s, p.x, p.y, p.width, p.height, 0.8);
        fill_cavity(l, b, s, v, p);
    }
    return s;
}

static size_t places_in(const struct front *f, size_t row) {
    size_t count = 0;
    for (size_t i = 0; i < f->count; i++)
        count += f->list[i].row == row;
    return count;
}

/* From the centre to the cavities of each ring, so that none of them touch:
 * neighbours on a ring, and rings. Returns the outermost. */
static double ring_radii(const struct front *f, double pitch, double *radius) {
    double inside = -pitch;
    for (size_t row = f->rows; row-- > 0;) {
        size_t count = places_in(f, row);
        double own = count < 2 ? 0 : pitch / 2 / sin(acos(-1) / (double)count);
        radius[row] = fmax(own, count == 0 ? 0 : inside + pitch);
        inside = radius[row];
    }
    return radius[0];
}

static struct slab *draw_rings(struct leaf *l, const struct block *b,
                               const struct front *f, double x, double *right) {
    const struct composer *c = &l->composer;
    const double gap = 4;
    double high = cell_height(l), half = high / 2 + 4, pitch = 2 * half + gap;
    double *radius = arena_alloc(c->arena, f->rows, sizeof *radius);
    double rim = ring_radii(f, pitch, radius) + half + gap + 2;
    struct slab *s = slab_new(c, 2 * rim, b->at);
    struct place centre = {x + rim, rim, rim, rim};
    *right = x + 2 * rim;
    slab_disc(c, s, centre.x, centre.y, rim, 1.6, style_black());
    draw_key(l, s, b, centre);
    for (size_t i = 0; i < f->count; i++) {
        const struct cavity *v = &f->list[i];
        if (text_is(v->name, "-"))
            continue;
        double turn =
            2 * acos(-1) * (double)v->place / (double)places_in(f, v->row);
        double at_x = centre.x + radius[v->row] * sin(turn);
        double at_y = centre.y - radius[v->row] * cos(turn);
        double wide = 1.5 * half; /* at the height of the first line */
        slab_disc(c, s, at_x, at_y, half, 0.8, style_black());
        fill_cavity(
            l, b, s, v,
            (struct place){at_x - wide / 2, at_y - high / 2, wide, high});
    }
    return s;
}

void connector_caption(struct leaf *l, struct slab *s, const struct block *b,
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

struct slab *connector_face(struct leaf *l, const struct block *b,
                            const struct spot *spot, double *right) {
    const struct entry *e = tree_setting(b, "face");
    if (e == NULL || e->choice_count == 0)
        return NULL;
    struct front f = read_face(l, e);
    f.round = text_is(leaf_block_setting(l, b, "shape"), "round");
    check_face(l, &f, e->at);
    place_wires(l, b, &f, spot);
    if (f.places == 0)
        return NULL;
    struct tagger *tags = l->composer.tags;
    size_t outer = tag_open(
        tags, TAG_FIGURE,
        text_of(arena_printf(l->composer.arena, "The face of connector %.*s",
                             (int)b->name.len, b->name.start)));
    struct slab *s =
        f.round ? draw_rings(l, b, &f, spot->x, right)
                : draw_rows(l, b, &f, spot->x, leaf_width(l) - spot->x, right);
    tag_close(tags, outer);
    s->anchor = refer_node(l, b->node);
    return s;
}

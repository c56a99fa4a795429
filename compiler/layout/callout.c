/* callout.c - numbered marks on a figure, and the key to them.
 *
 * Black on a white disc with a black ring, and white around the ring: it stands
 * out from dark and from light, and on a copy without colours. */
#include "layout/callout.h"

#include "base/arena.h"
#include "base/diag.h"
#include "layout/shape.h"

#include <math.h>

static const double ring = 1.2, halo = 1.6, hang = 24;

static double radius_of(const struct leaf *l) {
    return l->style.note.size * 0.9;
}

struct callout {
    struct text number;
    double x, y; /* of its middle, from the slab's corner */
    variant_set variants;
    const struct entry *row;
    bool again; /* the same number at the same place, for other variants */
};

struct callout_key {
    struct callout *callout;
    size_t count;
    size_t *line; /* the callouts that the key lists */
    size_t line_count;
    const struct block *block;
    struct spot spot;
};

static void draw_number(struct leaf *l, struct slab *s, double x, double y,
                        struct text number) {
    const struct composer *c = &l->composer;
    double size = l->style.note.size;
    double wide = shape_width(c->shaper, FACE_BOLD, size, number);
    slab_disc(c, s, x, y, radius_of(l), 0, style_white());
    slab_disc(c, s, x, y, radius_of(l) - ring / 2, ring, style_black());
    slab_text(c, s, x - wide / 2, y + size * shape_cap_height(FACE_BOLD) / 2,
              FACE_BOLD, size, style_black(), number);
}

static bool refuse(struct leaf *l, struct span at, const char *why) {
    diag_add(l->composer.diags, DIAG_MARK_ON_FIGURE, at, "%s", why);
    return false;
}

/* A share of the side, the same in all variants; NAN after a message. */
static double share(struct leaf *l, const struct block *b,
                    const struct callout *one, const char *column) {
    const struct cell *cell = tree_cell(b, one->row, column);
    double found = NAN;
    for (size_t i = 0; i < 64; i++) {
        if ((one->variants >> i & 1) == 0)
            continue;
        double now = values_cell_number(l->values, b, one->row, column, i);
        if (isfinite(found) && now != found) {
            refuse(l, cell->at,
                   "its place differs by variant; write a row for "
                   "each, with the variant behind it");
            return NAN;
        }
        found = now;
    }
    if (found >= 0 && found <= 1)
        return found;
    refuse(l, cell == NULL ? one->row->at : cell->at,
           "its place is outside the image; write 0 % to 100 %");
    return NAN;
}

/* All of the disc is on the image where that has room for it. */
static double inside(const struct leaf *l, double at, double side) {
    double edge = fmin(radius_of(l) + halo, side / 2);
    return fmin(fmax(at, edge), side - edge);
}

static bool place_one(struct leaf *l, const struct block *b,
                      struct callout_place place, struct callout *one) {
    const struct cell *mark = tree_cell(b, one->row, "mark");
    if (mark == NULL || tree_cell(b, one->row, "part") == NULL)
        return false;
    one->number = mark->text;
    if (shape_width(l->composer.shaper, FACE_BOLD, l->style.note.size,
                    mark->text) > 2 * (radius_of(l) - ring) - 1)
        return refuse(l, mark->at,
                      "it is too long for its disc; number the "
                      "parts from 1");
    double across = share(l, b, one, "across"), down = share(l, b, one, "down");
    one->x = place.x + inside(l, across * place.width, place.width);
    one->y = inside(l, down * place.height, place.height);
    return isfinite(across) && isfinite(down);
}

static struct text part_of(const struct callout_key *key, size_t index) {
    return tree_cell(key->block, key->callout[index].row, "part")->text;
}

/* Against those before it. A number may be drawn in several places, for four
 * screws of a sort; then it is in the key once. Those of all variants stand on
 * one image. */
static void compare(struct leaf *l, struct callout_key *key, size_t index) {
    struct callout *one = &key->callout[index];
    bool listed = false;
    for (size_t i = 0; i < index; i++) {
        const struct callout *other = &key->callout[i];
        bool same = text_equal(one->number, other->number);
        bool apart = (one->variants & other->variants) == 0;
        double far = hypot(one->x - other->x, one->y - other->y);
        if (apart && same && far < 0.5)
            one->again = true;
        else if (far < 2 * radius_of(l))
            refuse(l, one->row->at,
                   "it covers another mark; move one of them, "
                   "or make the image wider");
        else if (!apart && same &&
                 !text_equal(part_of(key, index), part_of(key, i)))
            refuse(l, one->row->at, "its number stands for another part too");
        listed |= same && one->variants == other->variants;
    }
    if (!listed)
        key->line[key->line_count++] = index;
}

struct callout_key *callout_draw(struct leaf *l, const struct block *b,
                                 struct slab *s, struct callout_place place,
                                 const struct spot *spot) {
    struct arena *a = l->composer.arena;
    struct callout_key *key = arena_alloc(a, 1, sizeof *key);
    key->callout = arena_alloc(a, b->entry_count + 1, sizeof *key->callout);
    key->line = arena_alloc(a, b->entry_count + 1, sizeof *key->line);
    key->block = b;
    key->spot = *spot;
    for (size_t i = 0; i < b->entry_count; i++) {
        const struct entry *row = &b->entries[i];
        if (row->kind != ENTRY_ROW)
            continue;
        struct callout one = {.row = row};
        one.variants = spot->variants & values_tagged(l->values, &row->tags);
        if (one.variants == 0 || !place_one(l, b, place, &one))
            continue;
        key->callout[key->count] = one;
        compare(l, key, key->count++);
    }
    /* All haloes below all marks: near ones do not cut into each other. */
    for (size_t i = 0; i < key->count; i++)
        if (!key->callout[i].again)
            slab_disc(&l->composer, s, key->callout[i].x, key->callout[i].y,
                      radius_of(l) + halo, 0, style_white());
    for (size_t i = 0; i < key->count; i++)
        if (!key->callout[i].again)
            draw_number(l, s, key->callout[i].x, key->callout[i].y,
                        key->callout[i].number);
    return key;
}

size_t callout_count(const struct callout_key *key) {
    return key->line_count;
}

double callout_draw_key(struct leaf *l, struct slab *s,
                        const struct callout_key *key, double x, double y,
                        double width) {
    const struct composer *c = &l->composer;
    double top = y;
    for (size_t i = 0; i < key->line_count; i++) {
        const struct callout *one = &key->callout[key->line[i]];
        struct rich r = {0};
        struct spot spot = key->spot;
        spot.variants = one->variants;
        spot.boxes = NULL;
        prose_add_cell(l, &r, tree_cell(key->block, one->row, "part"), &spot);
        leaf_add_readers(l, &r, spot.type, one->variants, key->spot.variants);
        const struct lines *lines =
            paragraph_break(c, words_of(c, &r), width - hang, spot.type, 1);
        double first = fmax(spot.type.leading, 2 * radius_of(l));
        draw_number(l, s, x + radius_of(l), y + first / 2, one->number);
        paragraph_draw_all(c, s, lines, x + hang,
                           y + (first - spot.type.leading) / 2);
        y += fmax(first, paragraph_height(lines)) + 4;
    }
    return key->line_count == 0 ? 0 : y - 4 - top;
}

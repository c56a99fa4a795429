/* slab.c - a piece of a page that is never split. */
#include "layout/slab.h"

#include "base/arena.h"
#include "base/diag.h"
#include "layout/shape.h"

#include <string.h>

struct slab *slab_new(const struct composer *c, double height, struct span at) {
    struct slab *s = arena_alloc(c->arena, 1, sizeof *s);
    s->height = height;
    s->at = at;
    return s;
}

struct op *slab_op(const struct composer *c, struct slab *s,
                   enum op_kind kind) {
    if (s->op_count == s->op_room) {
        size_t room = s->op_room == 0 ? 1 : s->op_room * 2;
        s->ops =
            arena_grow(c->arena, s->ops, s->op_count, room, sizeof *s->ops);
        s->op_room = room;
    }
    struct op *op = &s->ops[s->op_count++];
    op->kind = kind;
    op->tag = tag_of_op(c->tags, kind);
    return op;
}

void slab_link(const struct composer *c, struct slab *s, struct link link) {
    if (s->link_count == s->link_room) {
        size_t room = s->link_room == 0 ? 2 : s->link_room * 2;
        s->links = arena_grow(c->arena, s->links, s->link_count, room,
                              sizeof *s->links);
        s->link_room = room;
    }
    s->links[s->link_count++] = link;
}

void slab_fill(const struct composer *c, struct slab *s, double x, double y,
               double width, double height, struct colour colour) {
    struct op *op = slab_op(c, s, OP_RECT);
    op->x = x;
    op->y = y;
    op->width = width;
    op->height = height;
    op->colour = colour;
    op->fill = true;
}

void slab_box(const struct composer *c, struct slab *s, double x, double y,
              double width, double height, double line_width) {
    struct op *op = slab_op(c, s, OP_RECT);
    op->x = x + line_width / 2;
    op->y = y + line_width / 2;
    op->width = width - line_width;
    op->height = height - line_width;
    op->line_width = line_width;
}

void slab_rule(const struct composer *c, struct slab *s, double x, double y,
               double x2, double y2, double line_width) {
    struct op *op = slab_op(c, s, OP_LINE);
    op->x = x;
    op->y = y;
    op->x2 = x2;
    op->y2 = y2;
    op->line_width = line_width;
}

void slab_disc(const struct composer *c, struct slab *s, double x, double y,
               double radius, double line_width, struct colour colour) {
    /* Handles of a quarter circle: 4/3 (sqrt 2 - 1), from memory. */
    double r = radius, h = 0.5523 * radius;
    const struct path_point points[] = {
        {PATH_MOVE, 0, 0, 0, 0, x + r, y},
        {PATH_CURVE, x + r, y + h, x + h, y + r, x, y + r},
        {PATH_CURVE, x - h, y + r, x - r, y + h, x - r, y},
        {PATH_CURVE, x - r, y - h, x - h, y - r, x, y - r},
        {PATH_CURVE, x + h, y - r, x + r, y - h, x + r, y},
        {PATH_CLOSE, 0, 0, 0, 0, x + r, y},
    };
    enum { COUNT = sizeof points / sizeof points[0] };
    struct op *op = slab_op(c, s, OP_PATH);
    op->path = arena_same(c->arena, points, COUNT, sizeof *points);
    op->path_count = COUNT;
    op->colour = colour;
    op->fill = line_width == 0;
    op->line_width = line_width;
}

static bool is_whole(const struct run *run) {
    for (size_t i = 0; i < run->glyph_count; i++)
        if (run->glyphs[i].id == 0)
            return false;
    return true;
}

static double add_run(const struct composer *c, struct slab *s, double x,
                      double y, double size, struct colour colour,
                      const struct run *run) {
    size_t outer = tag_open_text(c->tags);
    struct op *op = slab_op(c, s, OP_TEXT);
    tag_close(c->tags, outer);
    op->x = x;
    op->y = y;
    op->face = run->face;
    op->size = size;
    op->colour = colour;
    op->fill = true;
    op->text = run->text;
    op->glyphs = run->glyphs;
    op->glyph_count = run->glyph_count;
    return run->advance * size;
}

static void check_symbols(const struct composer *c, const struct slab *s,
                          struct text text) {
    uint32_t code = shape_missing(c->shaper, FACE_SYMBOL, text);
    char bytes[4];
    if (code != 0)
        diag_add(c->diags, DIAG_GLYPH_MISSING, s->at, "'%.*s' (U+%04X)",
                 (int)text_encode(code, bytes), bytes, (unsigned)code);
}

double slab_text(const struct composer *c, struct slab *s, double x, double y,
                 enum face face, double size, struct colour colour,
                 struct text text) {
    const struct run *run = shape_text(c->shaper, face, text);
    if (is_whole(run))
        return add_run(c, s, x, y, size, colour, run);
    double start = x;
    for (size_t at = 0; at < text.len;) {
        bool covered;
        struct text rest = text_part(text, at, text.len);
        rest.len = shape_covered(c->shaper, face, rest, &covered);
        if (!covered)
            check_symbols(c, s, rest);
        run = shape_text(c->shaper, covered ? face : FACE_SYMBOL, rest);
        x += add_run(c, s, x, y, size, colour, run);
        at += rest.len;
    }
    return x - start;
}

void slab_to_front(const struct composer *c, struct slab *s, size_t from) {
    size_t moved = s->op_count - from;
    struct op *first =
        arena_same(c->arena, s->ops + from, moved, sizeof *first);
    memmove(s->ops + moved, s->ops, from * sizeof *s->ops);
    memcpy(s->ops, first, moved * sizeof *first);
}

struct op slab_moved(struct arena *a, const struct op *op, double dx,
                     double dy) {
    struct op moved = *op;
    moved.x += dx;
    moved.y += dy;
    if (op->kind == OP_LINE) {
        moved.x2 += dx;
        moved.y2 += dy;
    }
    if (op->kind != OP_PATH)
        return moved;
    struct path_point *path =
        arena_same(a, op->path, op->path_count, sizeof *path);
    for (size_t i = 0; i < op->path_count; i++) {
        path[i].x1 += dx;
        path[i].x2 += dx;
        path[i].x += dx;
        path[i].y1 += dy;
        path[i].y2 += dy;
        path[i].y += dy;
    }
    moved.path = path;
    return moved;
}

void slab_copy(const struct composer *c, struct slab *s,
               const struct slab *from, double dx, double dy) {
    for (size_t i = 0; i < from->op_count; i++) {
        struct op *op = slab_op(c, s, from->ops[i].kind);
        *op = slab_moved(c->arena, &from->ops[i], dx, dy);
    }
    for (size_t i = 0; i < from->link_count; i++) {
        struct link link = from->links[i];
        link.x += dx;
        link.y += dy;
        slab_link(c, s, link);
    }
}

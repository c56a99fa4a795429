/* pen.c - drawings as short texts. */
#include "layout/pen.h"

#include "base/arena.h"

#include <stdlib.h>
#include <string.h>

/* A path under construction: from the square of 100 to the page. */
struct pen {
    struct arena *arena;
    struct path_point *point;
    size_t count, room;
    double x, y, scale; /* of the square on the page */
    double at_x, at_y;  /* in the square */
};

static struct path_point *pen_add(struct pen *p, enum path_verb verb, double x,
                                  double y) {
    if (p->count == p->room) {
        size_t room = p->room == 0 ? 16 : p->room * 2;
        p->point =
            arena_grow(p->arena, p->point, p->count, room, sizeof *p->point);
        p->room = room;
    }
    struct path_point *point = &p->point[p->count++];
    *point = (struct path_point){
        .verb = verb, .x = p->x + x * p->scale, .y = p->y + y * p->scale};
    p->at_x = x;
    p->at_y = y;
    return point;
}

static void pen_curve(struct pen *p, double x1, double y1, double x2, double y2,
                      double x, double y) {
    struct path_point *point = pen_add(p, PATH_CURVE, x, y);
    point->x1 = p->x + x1 * p->scale;
    point->y1 = p->y + y1 * p->scale;
    point->x2 = p->x + x2 * p->scale;
    point->y2 = p->y + y2 * p->scale;
}

/* Four curves; 0.5523 puts the handles of a quarter circle (from memory:
 * 4/3 (sqrt 2 - 1)). */
static void pen_circle(struct pen *p, double x, double y, double r) {
    double h = 0.5523 * r;
    pen_add(p, PATH_MOVE, x + r, y);
    pen_curve(p, x + r, y + h, x + h, y + r, x, y + r);
    pen_curve(p, x - h, y + r, x - r, y + h, x - r, y);
    pen_curve(p, x - r, y - h, x - h, y - r, x, y - r);
    pen_curve(p, x + h, y - r, x + r, y - h, x + r, y);
    pen_add(p, PATH_CLOSE, x + r, y);
}

static const char *read_numbers(const char *s, double *out, size_t count) {
    for (size_t i = 0; i < count; i++) {
        while (*s == ' ' || *s == ',')
            s++;
        char *end;
        out[i] = strtod(s, &end);
        s = end;
    }
    return s;
}

static void pen_path(struct pen *p, const char *s) {
    double n[6];
    char verb = 'M';
    while (*s != '\0') {
        if (*s == ' ') {
            s++;
            continue;
        }
        if (strchr("MLHVCZO", *s) != NULL)
            verb = *s++;
        if (verb == 'M') {
            s = read_numbers(s, n, 2);
            pen_add(p, PATH_MOVE, n[0], n[1]);
        } else if (verb == 'L') {
            s = read_numbers(s, n, 2);
            pen_add(p, PATH_LINE, n[0], n[1]);
        } else if (verb == 'H') {
            s = read_numbers(s, n, 1);
            pen_add(p, PATH_LINE, n[0], p->at_y);
        } else if (verb == 'V') {
            s = read_numbers(s, n, 1);
            pen_add(p, PATH_LINE, p->at_x, n[0]);
        } else if (verb == 'C') {
            s = read_numbers(s, n, 6);
            pen_curve(p, n[0], n[1], n[2], n[3], n[4], n[5]);
        } else if (verb == 'O') {
            s = read_numbers(s, n, 3);
            pen_circle(p, n[0], n[1], n[2]);
        } else {
            pen_add(p, PATH_CLOSE, p->at_x, p->at_y);
        }
    }
}

void pen_draw(const struct composer *c, struct slab *s, struct pen_square q,
              const char *path, double width, struct colour colour) {
    struct pen p = {
        .arena = c->arena, .x = q.x, .y = q.y, .scale = q.side / 100};
    pen_path(&p, path);
    struct op *op = slab_op(c, s, OP_PATH);
    op->path = p.point;
    op->path_count = p.count;
    op->colour = colour;
    op->fill = width == 0;
    op->line_width = width * p.scale;
}

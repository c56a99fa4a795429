/* worst.c - where in the ranges of its inputs a requirement fails. */
#include "checks/worst.h"

#include "base/arena.h"
#include "source/kind.h"
#include "source/tree.h"
#include "values/figure.h"
#include "values/range.h"

#include <math.h>
#include <string.h>

/* No more decimals than it takes to tell where in its range the root stands, up
 * to two more than its own. */
static int corner_decimals(const struct corner *c, const struct unit *u,
                           int own) {
    double width = c->root->range.high - c->root->range.low;
    double number = u == NULL ? c->value : unit_from_si(u, c->value);
    double near =
        0.02 *
        fabs(u == NULL ? width : unit_from_si(u, width) - unit_from_si(u, 0));
    for (int decimals = 0; decimals < own + 2; decimals++)
        if (fabs(round_value(number, decimals, ROUND_HALF_EVEN) - number) <=
            near)
            return decimals;
    return own + 2;
}

enum { CORNERS_TOLD = 4 };

/* The value itself: what a circuit gives is the root of what is judged. */
static bool is_result(const struct requirement *r, const struct corner *c) {
    double least = 1e-9 * fabs(c->value);
    struct ends left = range_ends(r->left);
    if (r->left == c->root)
        return c->root->moved[0] != NULL || c->root->moved[1] != NULL;
    return r->block->kind->id == KIND_CIRCUIT &&
           (fabs(left.high - c->value) <= least ||
            fabs(left.low - c->value) <= least);
}

/* "lamp.run 3.5 m" */
static void put_corner(struct arena *a, struct buf *b, const struct corner *c,
                       struct text name) {
    const struct quantity *root = c->root;
    const struct unit *u = figure_unit(root);
    int decimals = corner_decimals(c, u, figure_decimals(root, u));
    buf_printf(
        b, "%.*s %s", (int)name.len, name.start,
        figure_text(a, c->value, u, root->dim, decimals, ROUND_HALF_EVEN));
}

/* What moves a circuit's result to the end where it stands; NULL: no result of
 * a circuit. */
static const struct corner *moved_of(const struct corner *c) {
    struct ends e = c->root->range;
    return c->root->moved[fabs(c->value - e.high) < fabs(c->value - e.low)];
}

/* By its name: alike variants have one result, of roots of the first. */
static bool is_among(const struct corner *list, size_t count,
                     struct text name) {
    for (size_t i = 0; i < count; i++)
        if (text_equal(list[i].root->name, name))
            return true;
    return false;
}

/* Of "S1, switch", assumed, the part. */
static struct text short_name(struct text name) {
    const char *comma = memchr(name.start, ',', name.len);
    return comma == NULL ? name
                         : text_part(name, 0, (size_t)(comma - name.start));
}

/* The inputs of a circuit's result that are not told themselves. */
static void put_moved(struct arena *a, struct buf *b, const char *before,
                      const struct corner *moved, const struct corner *told,
                      size_t count, const char *behind) {
    bool first = true;
    for (; moved != NULL && moved->root != NULL; moved++) {
        struct text name = moved->root->name;
        if (name.len == 0 || is_among(told, count, name))
            continue;
        buf_puts(b, first ? before : ", ");
        put_corner(a, b, moved, short_name(name));
        first = false;
    }
    if (!first)
        buf_puts(b, behind);
}

const char *worst_words(struct arena *a, const struct requirement *r,
                        const struct quantity *room) {
    static const char worst[] = "; worst at ";
    const struct corner *corner;
    size_t count = range_corner(a, room, false, &corner);
    struct buf b = buf_in(a);
    if (count == 1 && is_result(r, &corner[0])) {
        put_moved(a, &b, worst, moved_of(&corner[0]), NULL, 0, "");
        return buf_cstr(&b);
    }
    for (size_t i = 0; i < count && i < CORNERS_TOLD; i++) {
        buf_puts(&b, i == 0 ? worst : ", ");
        put_corner(a, &b, &corner[i], corner[i].root->name);
        put_moved(a, &b, " (", moved_of(&corner[i]), corner, count, ")");
    }
    return buf_cstr(&b);
}

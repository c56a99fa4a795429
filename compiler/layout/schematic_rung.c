/* schematic_rung.c - which points the rungs of a drawing join, and which bars
 * lie in their way. */
#include "layout/schematic_rung.h"

#include "base/arena.h"

void rung_find_points(struct arena *a, struct plan *p) {
    for (size_t i = 0; i < p->rung_count; i++) {
        struct plan_rung *r = &p->rung[i];
        bool up = r->span[0].up;
        r->point = arena_alloc(a, r->count + 1, sizeof *r->point);
        r->point[up ? r->count : 0] = r->span[0].from;
        for (size_t k = 0; k < r->count; k++)
            r->point[up ? r->count - k - 1 : k + 1] = r->span[k].to;
    }
}

size_t rung_highest(const struct plan_rung *r) {
    return r->point[0];
}

size_t rung_lowest(const struct plan_rung *r) {
    return r->point[r->count];
}

double rung_top(const struct plan *p, const struct plan_rung *r) {
    return p->point[rung_highest(r)].y;
}

double rung_bottom(const struct plan *p, const struct plan_rung *r) {
    return p->point[rung_lowest(r)].y;
}

bool rung_joins(const struct plan_rung *r, size_t point) {
    for (size_t i = 0; i <= r->count; i++)
        if (r->point[i] == point)
            return true;
    return false;
}

bool rung_crosses(const struct plan *p, const struct plan_rung *r,
                  size_t point) {
    const struct plan_point *q = &p->point[point];
    return q->y > rung_top(p, r) && q->y < rung_bottom(p, r) &&
           r->column >= q->first && r->column <= q->last &&
           !rung_joins(r, point);
}

/* requirement.c - whether a comparison holds: unrounded, at its worst end, and
 * as it is printed. */
#include "values/requirement.h"

#include "values/figure.h"
#include "values/model.h"
#include "values/range.h"

#include <math.h>

bool requirement_turned(const struct requirement *r) {
    return r->relation == RELATION_AT_LEAST || r->relation == RELATION_ABOVE;
}

static bool is_strict(const struct requirement *r) {
    return r->relation == RELATION_BELOW || r->relation == RELATION_ABOVE;
}

static double size_of(struct ends e) {
    return fmax(fabs(e.low), fabs(e.high));
}

bool requirement_holds(const struct quantity *room,
                       const struct requirement *r) {
    /* A few units in the sixteenth digit, which arithmetic may have cost. */
    double slack = 4e-15 * fmax(size_of(range_ends(r->left)),
                                size_of(range_ends(r->right)));
    double low = range_low(room);
    return is_strict(r) ? low > slack : low >= -slack;
}

const struct quantity *requirement_room(struct quantity_maker *m,
                                        const struct requirement *r) {
    const struct quantity *left = r->left, *right = r->right;
    bool turned = requirement_turned(r);
    const struct quantity *room = quantity_binary(
        m, QUANTITY_SUBTRACT, turned ? left : right, turned ? right : left);
    if (r->relation != RELATION_EQUAL)
        return room;
    const struct quantity *other =
        quantity_binary(m, QUANTITY_SUBTRACT, left, right);
    return range_low(other) < range_low(room) ? other : room;
}

bool requirement_shows(const struct requirement *r) {
    bool turned = requirement_turned(r);
    const struct quantity *small = turned ? r->right : r->left;
    const struct quantity *large = turned ? r->left : r->right;
    struct ends l = range_ends(small), h = range_ends(large);
    if (r->relation == RELATION_EQUAL || l.high > h.low)
        return true;
    double high = figure_shown(small, l.high, ROUND_UP);
    double low = figure_shown(large, h.low, ROUND_DOWN);
    double slack = 1e-12 * fmax(fabs(high), fabs(low));
    return is_strict(r) ? low - high > slack : low - high >= -slack;
}

struct requirement_worst requirement_worst(struct arena *a,
                                           const struct quantity *room,
                                           const struct requirement *r) {
    struct ends l = range_ends(r->left), h = range_ends(r->right);
    bool turned = requirement_turned(r);
    bool below = r->relation == RELATION_EQUAL && room->arg[0] == r->left;
    struct requirement_worst w = {.value = turned || below ? l.low : l.high,
                                  .limit = turned || below ? h.high : h.low};
    double apart = turned || below ? w.value - w.limit : w.limit - w.value;
    double low = range_low(room);
    if (low - apart <= 1e-9 * fmax(fabs(w.value), fabs(w.limit)))
        return w;
    const struct corner *corner;
    size_t count = range_corner(a, room, false, &corner);
    return (struct requirement_worst){range_at(r->left, corner, count),
                                      range_at(r->right, corner, count), true};
}

bool requirement_met(struct quantity_maker *m, const struct requirement *r) {
    return r->left != NULL && requirement_holds(requirement_room(m, r), r) &&
           (r->sizes != NULL || requirement_shows(r));
}

bool requirement_at_most(struct quantity_maker *m, const struct quantity *left,
                         const struct quantity *right) {
    return requirement_met(
        m, &(struct requirement){
               .left = left, .right = right, .relation = RELATION_AT_MOST});
}

struct quantity_maker requirement_maker(const struct values *v) {
    return v->maker;
}

size_t requirement_count(const struct values *v) {
    return v->requirement_count;
}

const struct requirement *requirement_at(const struct values *v, size_t i) {
    return &v->requirement[i];
}

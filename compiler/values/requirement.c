/* requirement.c - whether a comparison holds, unrounded, at its worst end. */
#include "values/requirement.h"

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

/* A few units in the sixteenth digit, which arithmetic may have cost. */
static bool is_enough(const struct quantity *room, struct ends left,
                      struct ends right, bool strict) {
    double slack = 4e-15 * fmax(size_of(left), size_of(right));
    double low = range_ends(room).low;
    return strict ? low > slack : low >= -slack;
}

bool requirement_holds(const struct quantity *room,
                       const struct requirement *r) {
    return is_enough(room, range_ends(r->left), range_ends(r->right),
                     is_strict(r));
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
    return range_ends(other).low < range_ends(room).low ? other : room;
}

bool requirement_at_most(struct quantity_maker *m, const struct quantity *left,
                         const struct quantity *right) {
    const struct quantity *room =
        quantity_binary(m, QUANTITY_SUBTRACT, right, left);
    return is_enough(room, range_ends(left), range_ends(right), false);
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

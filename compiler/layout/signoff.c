/* signoff.c - records and sign-off. */
#include "layout/signoff.h"

#include "layout/record.h"

static const double box_height = 26, remark_height = 36;

static const struct field_box vehicle[] = {
    {"identification number", 5, {NULL, 0}},
    {"plate", 2, {NULL, 0}},
    {"variant", 2, {NULL, 0}},
    {"work order", 2, {NULL, 0}},
};
static const struct field_box state[] = {
    {"odometer", 4, {NULL, 0}},
    {"engine hours", 4, {NULL, 0}},
    {"ambient temperature", 5, {NULL, 0}},
    {"meter, calibrated until", 7, {NULL, 0}},
    {"torque wrench, calibrated until", 8, {NULL, 0}},
};
static const struct field_box done[] = {
    {"done by", 3, {NULL, 0}},
    {"signature", 3, {NULL, 0}},
    {"licence, where one is asked for", 3, {NULL, 0}},
    {"date", 2, {NULL, 0}},
};
static const struct field_box inspected[] = {
    {"inspected by (another person)", 3, {NULL, 0}},
    {"signature", 3, {NULL, 0}},
    {"licence, where one is asked for", 3, {NULL, 0}},
    {"date", 2, {NULL, 0}},
};
static const struct field_box remarks[] = {
    {"remarks; next check due", 1, {NULL, 0}},
};

#define ROW(boxes, height)                                                     \
    { boxes, sizeof(boxes) / sizeof(boxes)[0], height }

void signoff_set(struct leaf *l) {
    const struct {
        const struct field_box *box;
        size_t count;
        double height;
    } rows[] = {
        ROW(vehicle, box_height),    ROW(state, box_height),
        ROW(done, box_height),       ROW(inspected, box_height),
        ROW(remarks, remark_height),
    };
    size_t from = l->flow.count;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        record_row(&l->flow, rows[i].box, rows[i].count, 0, leaf_width(l),
                   rows[i].height, l->guide->root->at);
    flow_together(&l->flow, from, BOND_FAST);
}

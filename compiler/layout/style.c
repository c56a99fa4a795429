/* style.c - the page and its type: frame, columns, sizes, colours. */
#include "layout/style.h"

/* The grid is half a line of a step: steps, rows of tables and whatever follows
 * space keep one beat down the page. A row of a table has the height of a line.
 *
 * Left margin 19 mm for the punch, the others 13 mm. Steps at 12 pt have a cap
 * height that is still 16 minutes of arc at 600 mm (NUREG-0700). */
static const struct style standard = {
    .width = 595,
    .height = 792,
    .left = 54,
    .right = 558,
    .top = 37,
    .bottom = 755,
    .rail = 72,
    .measure = 400,
    .scale = 1,
    .grid = 7.5,
    .title = {20, 24},
    .section = {14, 16},
    .heading = {12, 15},
    .step = {12, 15},
    .prose = {10.5, 13.25},
    .table = {10.5, 12.75},
    .small = {9, 11.25},
    .least = {9, 11.25},
    .note = {10, 12.5},
    .foot = {8, 10},
};

const struct style *style_standard(void) {
    return &standard;
}

static void scale(struct type *t, double factor) {
    t->size *= factor;
    t->leading *= factor;
}

struct style style_of(double step_size) {
    struct style s = standard;
    double factor = step_size / standard.step.size;
    struct type *all[] = {&s.title, &s.section, &s.heading, &s.step, &s.prose,
                          &s.table, &s.note,    &s.foot,    &s.small};
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
        scale(all[i], factor);
    s.rail *= factor;
    s.measure *= factor;
    s.grid *= factor;
    s.scale = factor;
    return s;
}

struct colour style_black(void) {
    return (struct colour){0, 0, 0};
}

struct colour style_white(void) {
    return (struct colour){1, 1, 1};
}

struct colour style_grey(void) {
    return (struct colour){0.45F, 0.45F, 0.45F};
}

static struct colour from_bytes(int red, int green, int blue) {
    return (struct colour){(float)red / 255, (float)green / 255,
                           (float)blue / 255};
}

struct colour style_red(void) {
    return from_bytes(0x9B, 0x24, 0x23);
}

struct colour style_orange(void) {
    return from_bytes(0xFF, 0x82, 0x00);
}

struct colour style_yellow(void) {
    return from_bytes(0xFF, 0xD1, 0x00);
}

struct colour style_blue(void) {
    return from_bytes(0x00, 0x53, 0x87);
}

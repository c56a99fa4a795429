/* style.h - the page and its type: frame, columns, sizes, colours.
 *
 * The standard frame is what Letter (612 x 792) and A4 (595 x 842) have in
 * common, so that both papers break pages at the same places and "page 3" is
 * page 3 on both. All lengths are points. */
#ifndef STYLE_H
#define STYLE_H

#include "layout/display.h"

struct type { /* size of the letters, distance of the lines */
    double size, leading;
};

struct style {
    double width, height;            /* the frame */
    double left, right, top, bottom; /* edges of the text, in the frame */
    double rail;    /* left column: tick boxes, numbers, symbols, labels */
    double measure; /* longest line of running prose */
    double scale;   /* of boxes that a pen fills in: 1 for steps of 12 pt */
    double grid;    /* what stands below space begins on a multiple of it */
    struct type title, section, heading, step, prose, table, note, foot;
    struct type small; /* parts: many columns */
    struct type least; /* drawings and the annex; no table is set smaller */
};

/* Steps of 12 pt have lines of 60 to 75 letters; for reading at arm's length.
 */
const struct style *style_standard(void);
/* The same for steps of another size: all others go with it but the least. */
struct style style_of(double step_size);

struct colour style_black(void);
struct colour style_white(void);
struct colour style_grey(void); /* lines only: copiers lose it */
/* Of signs and signal words; with black or white letters each has a contrast
 * above 7:1 (WCAG formula). */
struct colour style_red(void);
struct colour style_orange(void);
struct colour style_yellow(void);
struct colour style_blue(void);

#endif

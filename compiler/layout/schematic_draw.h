/* schematic_draw.h - a circuit that was planned, drawn: rungs, bars, symbols
 * and their words. */
#ifndef SCHEMATIC_DRAW_H
#define SCHEMATIC_DRAW_H

#include "layout/leaf.h"
#include "layout/schematic_plan.h"
#include "layout/schematic_words.h"

/* All lengths are points. */
enum {
    SIDE = 26,     /* of a symbol */
    LINE_AT = 24,  /* of the wire, from the left edge of its column */
    WORDS_AT = 40, /* of the words beside it */
    NARROW = 84,   /* least width of a column */
    WIDE = 132,    /* most */
    LINES_MAX = 8, /* beside one element */
};

struct label {
    struct text line[LINES_MAX];
    bool bold[LINES_MAX];
    size_t count;
};

struct item {
    struct schematic_element element;
    struct label label;
};

/* What stands on one sheet. */
struct piece {
    size_t from, to;    /* columns */
    double top, bottom; /* heights of the plan */
    size_t above;       /* number of the first mark at its top, from 0 */
    size_t below;       /* and of the first one at its bottom */
};

struct diagram {
    struct leaf *l;
    const struct block *block;
    struct plan plan;
    struct item *item; /* by the number that a span tells of its first */
    size_t item_count;
    struct slab *s;
    double size, leading, column; /* of the words; width of a column */
    double pad;                   /* above and below the words of an element */
    double band;                  /* above and below a bar: name, voltage */
    double x, y;                  /* of the first column; of its top */
    double room;                  /* most height on a page */
    struct piece piece;           /* on the sheet that is drawn */
    bool used[SCHEMATIC_SYMBOLS];
};

/* Width of words beside the elements. */
double schematic_width(const struct diagram *d, enum face face, struct text t);
/* What stands on this sheet, into the slab from `x` and `y` on. */
void schematic_draw(struct diagram *d);
/* The symbols of this circuit with their names, in rows: how high, and drawn;
 * where they end. */
double schematic_key_height(const struct diagram *d, double width);
double schematic_draw_key(struct diagram *d, double y, double width);

#endif

/* late.h - a page number in text that is set before its page is known.
 *
 * Figures are equally wide in every face, so room for so many of them is set
 * as noughts, and the figures are written over them when the pages are broken:
 * layout runs once. */
#ifndef LATE_H
#define LATE_H

#include "layout/slab.h"

struct shaper;

struct late {
    const struct anchor *to; /* whose page it is */
    size_t figures;          /* room for so many */
    struct late_place *place;
    size_t count, room;
};

/* The noughts in a text op: their bytes and glyphs. A paragraph may be set more
 * than once, so that there are several. */
struct late_place {
    char *text;
    struct glyph *glyph;
    enum face face;
};

enum { LATE_FIGURES = 9 };

const char *late_noughts(size_t figures);
void late_add(struct arena *a, struct late *l, struct late_place place);
/* Figures that the page takes; 0 where it is not printed. */
size_t late_needs(const struct late *l);
/* Writes the page; blanks stand before it where there is room for more. */
void late_write(struct shaper *s, const struct late *l);

#endif

/* swatch.h - the colour of a wire, drawn and in letters: nobody has to tell two
 * colours apart by eye, or on a copy. */
#ifndef SWATCH_H
#define SWATCH_H

#include "layout/slab.h"

struct hue;

struct swatch {
    const struct hue *base, *tracer; /* tracer NULL: of one colour */
};

/* "red", "red/white", "RD/WH": insulation, then its tracer. False when a colour
 * is not known; then *near is what was meant, or NULL. */
bool swatch_find(struct text name, struct swatch *out, const char **near);
/* "RD/WH", by the letters of IEC 60757. */
const char *swatch_letters(struct arena *a, const struct swatch *w);
/* A length of the wire, black around it, the tracer along its middle. */
void swatch_draw(const struct composer *c, struct slab *s,
                 const struct swatch *w, double x, double y, double width,
                 double height);
/* The same standing: the tracer along its middle, downward. */
void swatch_draw_down(const struct composer *c, struct slab *s,
                      const struct swatch *w, double x, double y, double width,
                      double height);

#endif

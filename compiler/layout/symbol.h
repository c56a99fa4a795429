/* symbol.h - safety signs, drawn by us in the grammar of ISO 3864: triangles
 * warn, barred rings forbid, discs command. */
#ifndef SYMBOL_H
#define SYMBOL_H

#include "layout/slab.h"

struct symbol;

/* By name ("electricity", "hot surface"); NULL when there is none. */
const struct symbol *symbol_find(const char *name);
const struct symbol *symbol_at(size_t index); /* NULL past the end */
const char *symbol_name(const struct symbol *s);
/* Drawn into a square with this side; triangles stand on its base. */
void symbol_draw(const struct composer *c, struct slab *s,
                 const struct symbol *symbol, double x, double y, double side);
/* The safety alert symbol of a signal band: the triangle filled with one
 * colour, its sign in the other. */
void symbol_draw_alert(const struct composer *c, struct slab *s, double x,
                       double y, double side, struct colour fill,
                       struct colour sign);

#endif

/* callout.h - numbered marks on a figure, and the key to them. */
#ifndef CALLOUT_H
#define CALLOUT_H

#include "layout/prose.h"

struct callout_key;

struct callout_place { /* of the image, from the slab's corner */
    double x, width, height;
};

/* Draws the marks of those rows of a figure that are for the spot's variants,
 * over the image. A mark that is too long, lies outside the image, covers
 * another or stands for two parts is reported. */
struct callout_key *callout_draw(struct leaf *l, const struct block *b,
                                 struct slab *s, struct callout_place place,
                                 const struct spot *spot);
size_t callout_count(const struct callout_key *key); /* its lines */
/* The key, each number in a disc as on the image; returns its height. */
double callout_draw_key(struct leaf *l, struct slab *s,
                        const struct callout_key *key, double x, double y,
                        double width);

#endif

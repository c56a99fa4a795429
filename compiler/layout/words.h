/* words.h - rich text cut into shaped words with gaps between them: what the
 * line breaker works on.
 *
 * A word is everything between two blanks, whatever the faces in it. A gap
 * tells whether a line may end there: never between a number and its unit,
 * inside a value, around a sign such as ±, before a dash, or at a no-break
 * space. A blank of no width (U+200B) lets a line end inside an address. There
 * is no other break inside a word: part numbers stay whole and nothing is
 * hyphenated. */
#ifndef WORDS_H
#define WORDS_H

#include "layout/rich.h"
#include "layout/shape.h"

struct atom { /* part of a word in one face */
    const struct run *run;
    const struct chunk *chunk;
    double width;
};

enum gap {
    GAP_NONE,  /* the first word */
    GAP_BREAK, /* a line may end here */
    GAP_POOR,  /* rather not: before a short number */
    GAP_INNER, /* only where that saves a line: before the ( of a value, or in
                  an item */
    GAP_WHOLE, /* never */
    GAP_FORCED /* always */
};

struct word {
    enum gap gap;              /* before it */
    const struct chunk *blank; /* that the gap's blank is written in */
    double gap_width;
    double width;
    size_t first, count; /* atoms */
};

struct words {
    struct atom *atom;
    size_t atom_count, atom_room;
    struct word *word;
    size_t count, room;
    double widest; /* longest piece that cannot be broken */
    double line;   /* width when set in one line */
    double lead;   /* before the first word */
};

/* Shapes the text and reports characters that no face has. The rich text must
 * outlive the words. */
struct words *words_of(const struct composer *c, const struct rich *r);
/* Width from the start to the point of the number that the text begins with, or
 * to the end of the number; -1 when it begins with none. */
double words_point(const struct composer *c, const struct words *w);
/* Moves the first line to the right. */
void words_indent(struct words *w, double lead);
/* Scales all widths: the same text at another size. */
void words_scale(struct words *w, double factor);

#endif

/* schematic_words.h - what an element of a circuit is called and drawn as. */
#ifndef SCHEMATIC_WORDS_H
#define SCHEMATIC_WORDS_H

#include "layout/leaf.h"
#include "layout/schematic_part.h"
#include "layout/swatch.h"
#include "source/circuit_tree.h"

struct schematic_element {
    bool is_wire; /* a line in its colour; else the symbol */
    enum schematic_symbol symbol;
    bool coloured;
    struct swatch colour; /* of a wire */
    struct text name;     /* bold */
    const char *words;    /* behind it: "10 AWG 2.5 m red/white" */
    struct text terminal[2];
    struct span at;
};

/* The variants for which an element is drawn; 0: none, or it is drawn with an
 * alternative of its line. */
variant_set schematic_variants(const struct leaf *l, const struct block *b,
                               size_t i);
struct schematic_element schematic_element(struct leaf *l,
                                           const struct block *b, size_t i);
struct schematic_element schematic_supply(struct leaf *l, const struct block *b,
                                          size_t i);
/* "battery −": a post with a minus that no reader takes for a hyphen. */
struct text schematic_point_name(struct leaf *l, const struct block *b,
                                 size_t point);
/* "13.4 V", or "13.3 to 13.5 V" over the variants: in the first state; NULL
 * when it is not known. */
const char *schematic_voltage(struct leaf *l, const struct block *b,
                              size_t point);
/* The circuit read out: "battery + through F1, W1 to studs; ..." */
struct text schematic_aloud(struct leaf *l, const struct block *b);

#endif

/* circuit_word.h - words of an element's line: parts, terminals, colours. */
#ifndef CIRCUIT_WORD_H
#define CIRCUIT_WORD_H

#include "source/circuit_tree.h"

#include <stdbool.h>

/* By its word; false when none has it, *nearest is then a part or NULL. */
bool circuit_word_part(struct text word, enum circuit_part *out,
                       const char **nearest);
/* "30-87" to two terminals; false when it is not of that form. */
bool circuit_word_pair(struct text word, struct text terminal[2]);
/* Whether a part has these terminals; *cure says which it has. */
bool circuit_word_fits(enum circuit_part part, const struct text terminal[2],
                       const char **cure);
/* "red", "red/white". */
bool circuit_word_colour(struct text word, struct text colour[2]);
/* A position that a state line can give to a part; *all lists them. */
bool circuit_word_position(enum circuit_part part, struct text word,
                           const char **all);

#endif

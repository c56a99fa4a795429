/* misread.h - words that are no unit, name or operator: what was meant. */
#ifndef MISREAD_H
#define MISREAD_H

#include "values/scan.h"

/* The word at the cursor, behind a number and perhaps touching it, is no unit.
 */
void misread_unit(struct scan *s, struct text word, bool touching);
/* The word at the cursor, or nothing, where a value or an operator belongs. */
void misread_word(struct scan *s, struct text word);
/* How an unknown word ends in a message: what is near, and the letters that
 * only look like others. */
const char *misread_end(struct scan *s, const struct nearest *near);

#endif

/* misread.h - words that are no unit, name or operator: what was meant. */
#ifndef MISREAD_H
#define MISREAD_H

#include "calc/unit.h"
#include "values/scan.h"

/* The word at the cursor, behind a number and perhaps touching it, is no unit.
 */
void misread_unit(struct scan *s, struct text word, bool touching);
/* The word at the cursor, or nothing, where a value or an operator belongs. */
void misread_word(struct scan *s, struct text word);
/* What the trade says and the language writes otherwise: "max", "plus-minus".
 * How it is written; NULL for other words. */
const char *misread_cure(struct text word);
/* "; write degC ..." where a letter was read as another unit than was meant: 40
 * C where a temperature is wanted. "" for other units. */
const char *misread_meant(struct arena *a, const struct unit *read,
                          struct dim wanted);
/* A torque that is written as an energy: 45 J. Either may be NULL. */
bool misread_energy(const struct unit *read, const struct unit *wanted);
/* What is said of a figure in coulombs or farads, as it is printed, where
 * running text tells it: a temperature was meant. NULL for other units. */
const char *misread_degrees(struct arena *a, const struct unit *read,
                            const char *figure);
/* How an unknown word ends in a message: what is near, and the letters that
 * only look like others. */
const char *misread_end(struct scan *s, const struct nearest *near);
/* The end of a message about a name that is not known, where words follow it
 * that are no part of an expression; "" where none do. */
const char *misread_words(struct scan *s, struct text word);
/* The same about a number without a unit that was meant as a range: 5-50 N.m.
 */
const char *misread_span(struct scan *s);
/* And about one that is a number alone: "; write 80 lbf.ft or 80 N.m". */
const char *misread_bare(struct arena *a, struct text t, struct dim wanted);

#endif

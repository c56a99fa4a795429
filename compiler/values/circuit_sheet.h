/* circuit_sheet.h - tables that a circuit gives by itself: its wire list, its
 * load sheet, the readings to expect in a test, where to look for a fault. */
#ifndef CIRCUIT_SHEET_H
#define CIRCUIT_SHEET_H

struct block;
struct values;

/* The tables of all `sheet` blocks, for values_table(). */
void circuit_sheet_fill(struct values *v);
/* A `faults` block in the source language, from the first state and variant of
 * a circuit, for the author to reword; NULL: it was not solved. */
const char *circuit_sheet_faults(struct values *v, const struct block *circuit);

#endif

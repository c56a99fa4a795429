/* wired.h - what the circuits of a guide expose a person to. */
#ifndef WIRED_H
#define WIRED_H

#include "base/text.h"
#include "values/values.h"

/* Highest voltage of its supplies, resting or charging; NAN when none has one.
 */
double wired_volt(const struct values *v, const struct block *circuit);
/* The same of one supply block. */
double wired_supply_volt(const struct values *v, const struct block *supply);
bool wired_names_supply(const struct block *circuit, struct text supply);
bool wired_names_load(const struct block *circuit, struct text load);

#endif

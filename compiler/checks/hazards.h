/* hazards.h - which rows of the catalogue a guide calls for, and where. */
#ifndef HAZARDS_H
#define HAZARDS_H

#include "checks/catalogue.h"
#include "checks/judge.h"
#include "checks/walk.h"

/* The cautions in the order of their steps, the highest signal word first.
 * Words of marks that the catalogue does not know are messages. */
void hazards_find(struct compile *c, const struct guide *g,
                  const struct values *v, const struct catalogue *k,
                  const struct steps *steps, const struct verdicts *judged,
                  struct findings *out);

/* The words of {does ...}, for help; NULL past the end. */
const char *hazards_deed(size_t index);

#endif

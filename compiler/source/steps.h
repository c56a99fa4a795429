/* steps.h - one list of steps, numbered through the guide. */
#ifndef STEPS_H
#define STEPS_H

#include "source/tree.h"

struct compile;

enum { STEPS_LEVELS = 3 };

/* Joins lists that only blocks part, then numbers all steps below the root:
 * "1", "1.1", "1.1a". */
void steps_number(struct compile *c, struct node *root);

#endif

/* include.h - other files of the library: facts and shared steps. */
#ifndef INCLUDE_H
#define INCLUDE_H

#include "source/tree.h"

struct reading;

/* Reads the files that the guide block's `uses` names; their blocks become the
 * first of guide->blocks. */
void include_facts(struct reading *r);
/* Puts the contents of shared files behind the include blocks below n. */
void include_shared(struct reading *r, struct node *n);

#endif

/* leads.h - names of steps are their own, and references lead somewhere. */
#ifndef LEADS_H
#define LEADS_H

#include "stages.h"

/* Two steps of one name; {see NAME} and [words](#NAME) that lead to nothing. */
void leads_check(struct compile *c, const struct guide *g);

#endif

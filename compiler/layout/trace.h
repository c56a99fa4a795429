/* trace.h - the working of every computed figure, for the annex. */
#ifndef TRACE_H
#define TRACE_H

#include "layout/cite.h"

bool trace_any(const struct leaf *l);
/* Of each block in the one variant where its margins are least. */
void trace_list(struct leaf *l, struct cited *sources, struct columns *p);

#endif

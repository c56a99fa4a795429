/* trace.h - how each computed figure came about: formula, figures put in,
 * result, source, so that an engineer can follow it by hand. */
#ifndef TRACE_H
#define TRACE_H

#include "layout/leaf.h"

bool trace_any(const struct leaf *l);
void trace_set(struct leaf *l);

#endif

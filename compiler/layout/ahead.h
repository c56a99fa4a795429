/* ahead.h - words that a guide will print, shaped before it is laid out. */
#ifndef AHEAD_H
#define AHEAD_H

#include <stdatomic.h>

struct findings;
struct guide;
struct shape_kept;
struct values;

/* Shapes the words of the guide's files into `kept`, until there are no more or
 * `enough` is set. What is missing is shaped when it is set: nothing that
 * prints hangs on how far it came. Reads the guide only. */
void ahead_shape(struct shape_kept *kept, const struct guide *g,
                 const atomic_bool *enough);
/* The words of its panels, of its checks and of what they rest on. */
void ahead_shape_findings(struct shape_kept *kept, const struct findings *f,
                          const struct values *v, const atomic_bool *enough);

#endif

/* crew.h - many pieces of work on all processors, results in their order.
 *
 * A piece of work shares nothing with another: all that it makes lives in its
 * own arena. What a run says and writes is done by the one who takes the
 * results, in the order of the pieces, so that it never depends on who was
 * faster. */
#ifndef CREW_H
#define CREW_H

#include <stddef.h>

struct crew;

/* Does piece `i` of `context`; what it returns is given to crew_take(). */
typedef void *crew_work(const void *context, size_t i);

/* As many hands as there are processors, and no more than pieces; with one the
 * work is done when it is taken. NULL: no memory. */
struct crew *crew_start(size_t pieces, crew_work *work, const void *context);
/* The result of piece `i`; all are taken, from 0 on. */
void *crew_take(struct crew *c, size_t i);
void crew_end(struct crew *c);

#endif

/* hand.h - a second pair of hands: work begun in its order by a processor that
 * has nothing else to do, while the owner goes on.
 *
 * The work writes nothing that the owner, or other work, reads before
 * hand_wait(): it has an arena of its own. */
#ifndef HAND_H
#define HAND_H

#include <stddef.h>

struct hand;

typedef void hand_work(void *context);

/* NULL: no memory. */
struct hand *hand_new(void);
/* Nothing may be left undone. NULL is nothing. */
void hand_free(struct hand *h);

enum { HAND_ROOM = 8 };

/* Takes over work(context), which begins after what was given before; at most
 * HAND_ROOM pieces wait. Returns the number of the piece, from 1. */
size_t hand_give(struct hand *h, hand_work *work, void *context);
/* Returns when that piece and all before it are done; what nobody has begun,
 * for want of a thread or a processor, is done by the caller. 0 is none. */
void hand_wait(struct hand *h, size_t piece);

/* How many processors there are, 1 at least. */
size_t hand_processors(void);

#endif

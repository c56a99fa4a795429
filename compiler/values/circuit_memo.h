/* circuit_memo.h - inside circuit_solve: the net of a state, and solutions that
 * are kept. */
#ifndef CIRCUIT_MEMO_H
#define CIRCUIT_MEMO_H

#include "values/circuit_solve.h"

/* Corners kept in a state: many results share a few, but a circuit with many
 * figures has more than would be asked for again. */
enum { CIRCUIT_CORNERS_MAX = 256 };

/* circuit_net_make.c: the parts that conduct, with the roots at a corner. */
void circuit_solve_make(struct circuit_work *w, const struct corner *corner,
                        size_t count);
/* Of w->work, doubles: with a leak at every node. */
size_t circuit_solve_room(const struct circuit_work *w);
/* Solves it; `cut`: what floats was cut off by the state, and leaks. */
enum net_fault circuit_solve_net(struct circuit_work *w, bool cut);

/* circuit_memo.c: whether the state opens anything, or a supply is off. */
bool circuit_memo_open(const struct circuit_work *w);
/* Puts the state of w->state and w->at back as it was solved at the nominal
 * figures. False: it is not known; room for it is made. */
bool circuit_memo_recall(struct circuit_work *w);
/* Keeps it, once it is solved. */
void circuit_memo_keep(struct circuit_work *w);
/* The solution at hand is not kept: its slopes are worked out when asked. */
void circuit_memo_no_slopes(struct circuit_work *w);

#endif

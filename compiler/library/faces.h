/* faces.h - what a run keeps of shaping and printing its guides: as many lots
 * as are laid out at a time, lent to one guide and taken back. Safe to use by
 * all threads.
 */
#ifndef FACES_H
#define FACES_H

struct faces;
struct shape_kept;
struct subset_kept;

/* NULL: no memory. Then, and without one, each guide shapes for itself. */
struct faces *faces_new(void);
/* After the guides that were laid out with it: their glyphs are here. */
void faces_free(struct faces *f);

/* The same for the subsets that are embedded. */
struct subset_kept *faces_lend_subsets(struct faces *f);
void faces_return_subsets(struct faces *f, struct subset_kept *k);

/* NULL where `f` is. */
struct shape_kept *faces_lend(struct faces *f);
void faces_return(struct faces *f, struct shape_kept *k);

#endif

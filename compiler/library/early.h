/* early.h - what the later stages of a guide will need, made by a second pair
 * of hands while the first stages are at work: the catalogue of hazards, and
 * the shapes of its words.
 *
 * What comes out is the same without. */
#ifndef EARLY_H
#define EARLY_H

struct compile;
struct early;
struct findings;
struct guide;
struct values;

/* Begins with the catalogue of c->library, on c->hand. NULL where there is none
 * to help; each function takes that. */
struct early *early_begin(const struct compile *c);
/* Goes on with the words of a guide that was read. */
void early_shape(struct early *e, const struct guide *g);
/* Puts into c what was made for the checks, and which files were read; nothing
 * where a message was given: then the checks read it again, and give it. */
void early_check(struct early *e, struct compile *c);
/* And for layout; while that begins, the words of what the checks found are
 * shaped. */
void early_lay_out(struct early *e, struct compile *c, const struct values *v,
                   const struct findings *f);
/* Layout is done: no word is wanted any more. */
void early_print(struct early *e);
/* Once the pages and all that the checks found are not used any more. */
void early_end(struct early *e);

#endif

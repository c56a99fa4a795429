/* early.h - what the checks of a guide will need, made by a second pair of
 * hands while the first stages are at work: the catalogue of hazards.
 *
 * What comes out is the same without. */
#ifndef EARLY_H
#define EARLY_H

struct compile;
struct early;

/* Begins with the catalogue of c->library, on c->hand. NULL where there is none
 * to help; each function takes that. */
struct early *early_begin(const struct compile *c);
/* Puts into c what was made for the checks, and which files were read; nothing
 * where a message was given: then the checks read it again, and give it. */
void early_check(struct early *e, struct compile *c);
/* Once the findings of the checks are not used any more. */
void early_end(struct early *e);

#endif

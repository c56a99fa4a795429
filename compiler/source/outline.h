/* outline.h - title and sections. */
#ifndef OUTLINE_H
#define OUTLINE_H

struct reading;

/* Takes the title from the flat children of the root and gathers them under
 * NODE_SECTION, one for each level-2 heading. */
void outline_make(struct reading *r);

#endif

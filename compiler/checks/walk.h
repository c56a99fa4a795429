/* walk.h - the steps of a guide in order, with what each touches, does, names.
 */
#ifndef WALK_H
#define WALK_H

#include "checks/spoken.h"
#include "source/tree.h"
#include "stages.h"
#include "values/values.h"

struct step_words {
    const struct node *step;    /* an outermost step */
    const struct node *section; /* NULL: before the first section */
    const struct mark **mark;   /* its touches and does, its heading's too */
    size_t mark_count, mark_room;
    const struct block **named; /* blocks in it or named in it: {NAME...}, or
                                   as a word of its text that ends in a digit */
    size_t named_count, named_room;
    const struct mark **value; /* the values in its text, in order */
    size_t value_count, value_room;
    struct spoken said; /* its words */
    variant_set variants;
};

struct steps {
    struct step_words *step;
    size_t count;
};

struct steps *walk_steps(struct compile *c, const struct guide *g,
                         const struct values *v);
/* A word of {touches} or {does}. */
bool walk_has_word(const struct step_words *s, struct text word);
/* The first mark with one of the words; NULL when there is none. */
const struct mark *walk_mark(const struct step_words *s,
                             const struct text *word, size_t count);
/* The author says that nothing is touched here, and why. */
bool walk_touches_nothing(const struct step_words *s);

#endif

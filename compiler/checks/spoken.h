/* spoken.h - the words of a step, and phrases found in them. */
#ifndef SPOKEN_H
#define SPOKEN_H

#include "base/place.h"
#include "base/text.h"

struct arena;
struct guide;
struct inlines;
struct node;

struct spoken_word {
    struct text text; /* absent: a {value} */
    struct span at;
    size_t sentence; /* counted from 0 in the step */
};

struct spoken {
    struct spoken_word *word;
    size_t count, room;
};

/* The words of a step as they are read, a {value} as one; with `all` those of
 * its substeps too. */
struct spoken spoken_of_step(struct arena *a, const struct guide *g,
                             const struct node *step, bool all);
/* The same of the running text of a setting. */
struct spoken spoken_of_text(struct arena *a, const struct source *src,
                             const struct inlines *text);
/* Whether a word is the one wanted, or an inflection of it: -s -es -d -ed -ing.
 * Capitals do not matter. */
bool spoken_is(struct text word, struct text wanted);
/* Index of the first word of the first place where the words of a phrase stand
 * in their order in one sentence, with at most three others between two of
 * them; SIZE_MAX when there is none. "renew|replace fuse": either will do.
 * "lug +nut": right behind the word before, so not in "lug under the nut". */
size_t spoken_find(const struct spoken *s, struct text phrase);
/* The same for a phrase that is looked for in many texts: `flags` are its
 * spoken_beginnings(). */
uint32_t spoken_beginnings(struct text phrase);
size_t spoken_find_from(const struct spoken *s, struct text phrase,
                        uint32_t flags);
/* The same where the phrase is a command: it begins a sentence, or stands
 * behind "and" or "then". */
size_t spoken_command(const struct spoken *s, struct text phrase);
/* From there to the end of the phrase. */
struct span spoken_place(const struct spoken *s, struct text phrase);

#endif

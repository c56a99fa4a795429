/* suggest.h - the end of a message about a word that is not known. */
#ifndef SUGGEST_H
#define SUGGEST_H

#include "base/text.h"

struct arena;

/* " (did you mean 'wire'?)" with the nearest spelling, if there is one, and the
 * letters of the word that are not on an English keyboard, since they may look
 * like others that are. "" when there is nothing to say. */
const char *suggest(struct arena *a, struct text word, struct text near);

#endif

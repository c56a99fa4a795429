/* word.h - matching the words that name rows of a table. Case of ASCII letters
 * does not matter, white space at either end neither, inside a run of blanks or
 * a hyphen counts as one blank. "aluminum" is "aluminium". */
#ifndef WORD_H
#define WORD_H

#include <stdbool.h>
#include <stddef.h>

bool word_is(const char *text, size_t len, const char *name);
/* Drops a first word and the blanks behind it: "class 8.8" to "8.8". */
bool word_drop(const char **text, size_t *len, const char *first);
/* White space off both ends. */
void word_trim(const char **text, size_t *len);

#endif

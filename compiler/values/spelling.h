/* spelling.h - texts of the author's own that are nearly known ones. */
#ifndef SPELLING_H
#define SPELLING_H

#include "values/model.h"

/* `known` gives the texts by index, NULL past the end. One that differs from a
 * known one by a slip of a letter was meant to be that: false after a message.
 */
bool spelling_check(struct values *v, struct span at, struct text written,
                    const char *(*known)(size_t index));

#endif

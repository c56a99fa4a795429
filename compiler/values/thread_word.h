/* thread_word.h - a thread that is none as it is written: what to write. */
#ifndef THREAD_WORD_H
#define THREAD_WORD_H

#include "base/text.h"

struct arena;

/* Of what thread_read() cannot read: "write M12 x 1.5" for "M12 x 1,5", "12 x
 * 1.5" and "M12 x 1.5 mm", "write 3/8-16 UNC" for "3/8 x 16", and examples for
 * others. */
const char *thread_word_cure(struct arena *a, struct text name);

#endif

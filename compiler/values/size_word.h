/* size_word.h - a wire size that is not of its conductor: what to write. */
#ifndef SIZE_WORD_H
#define SIZE_WORD_H

#include "base/text.h"
#include "calc/size.h"

struct arena;

/* The end of a message about a size that size_read() found to be a mismatch:
 * "; write conductor: ISO 6722, or class 2, class 5, here; or 10 AWG, the next
 * that is no thinner". `where` is where a conductor of its own can stand. */
const char *size_word_cure(struct arena *a, struct text size,
                           enum wire_system declared, const char *where);
/* What to write for a size that size_read() found to be ambiguous: "14 AWG, as
 * the conductor is AWG stranded", or the conductor, where none is declared. */
const char *size_word_whole(struct arena *a, struct text size,
                            enum wire_system declared);

#endif

/* stress.h - Markdown's signs around words that a text would print as they are.
 */
#ifndef STRESS_H
#define STRESS_H

#include "base/text.h"

#include <stdbool.h>

struct compile;
struct source;

/* Whether a text that is printed as it is written, with its {...}, has words in
 * **bold**, *italics* or `code`: true after a message. A star behind a word, or
 * between blanks, is a star. */
bool stress_refuse_in(struct compile *c, const struct source *src,
                      struct text t);

#endif

/* bounds.h - how much of one thing a source may hold before Markdown reads it.
 */
#ifndef BOUNDS_H
#define BOUNDS_H

#include "base/place.h"

#include <stdbool.h>

struct diags;

enum { BOUNDS_LEVELS = 200 };

/* Reports nesting, and images in one paragraph, beyond what the Markdown
 * library reads in reasonable time. */
bool bounds_check(struct diags *d, const struct source *src);

#endif

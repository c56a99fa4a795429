/* merge.h - marks that a merge of two versions left in a source. */
#ifndef MERGE_H
#define MERGE_H

#include "base/place.h"

#include <stdbool.h>

struct diags;

/* Refuses a line that begins with seven signs < or >, and no more, as a merge
 * sets them around what two people changed at one place: both would print.
 * The line of = between them may be a heading of Markdown, and is not asked.
 * False after a message. */
bool merge_check(struct diags *d, const struct source *src);

#endif

/* plain.h - titles and headings as plain text, with the values in them. */
#ifndef PLAIN_H
#define PLAIN_H

#include "values/values.h"

struct inlines;

/* As tree_plain(), and each value as it prints over the variants: "Fit a lamp
 * to the 24 V rail". Other marks print nothing there. */
struct text values_plain(const struct values *v, struct arena *a,
                         const struct inlines *t, variant_set s);
/* The guide's title, for all its readers. */
struct text values_title(const struct values *v, struct arena *a,
                         const struct guide *g);

#endif

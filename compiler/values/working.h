/* working.h - how a value came about: formula, figures put in, sources. */
#ifndef WORKING_H
#define WORKING_H

#include "values/values.h"

#include <stdio.h>

struct arena;
struct quantity;

/* One step: the formula with the names of what goes in, those names with their
 * figures, and the document behind it. "" where there is none. */
const char *working_formula(struct arena *a, const struct quantity *q);
const char *working_numbers(struct arena *a, const struct quantity *q);
const char *working_source(struct arena *a, const struct quantity *q);
/* Why the sizes below a wire's fail, a line each; "" when none was tried. */
const char *working_rejected(const struct values *v, const struct block *b,
                             size_t variant);
/* The value and the whole way down to its sources, as text. */
void working_explain(const struct values *v, struct arena *a,
                     const struct named *n, size_t variant, FILE *out);

#endif

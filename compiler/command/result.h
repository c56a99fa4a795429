/* result.h - results for other programs, as JSON. */
#ifndef RESULT_H
#define RESULT_H

#include "values/values.h"

#include <stdio.h>

struct results;

struct results *result_begin(void);
void result_guide(struct results *r, const char *guide, const char *pdf,
                  size_t pages, int status);
/* One value in one variant: name, variant, kind, value, unit, low, high,
 * printed, roots. Values are numbers in `unit`. */
void result_value(struct results *r, const struct values *v,
                  const struct named *n, size_t variant);
/* Writes the array and a line end, and frees it. */
void result_end(struct results *r, FILE *out);

#endif

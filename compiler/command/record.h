/* record.h - results for other programs, as JSON. */
#ifndef RECORD_H
#define RECORD_H

#include "values/values.h"

#include <stdio.h>

struct records;

struct records *record_begin(void);
void record_guide(struct records *r, const char *guide, const char *pdf,
                  size_t pages, int status);
/* One value in one variant: name, variant, kind, value, unit, low, high,
 * printed, roots. Values are numbers in `unit`. */
void record_value(struct records *r, const struct values *v,
                  const struct named *n, size_t variant);
/* Writes the array and a line end, and frees it. */
void record_end(struct records *r, FILE *out);

#endif

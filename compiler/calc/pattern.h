/* pattern.h - the order in which the fasteners of one joint are tightened. */
#ifndef PATTERN_H
#define PATTERN_H

#include <stdbool.h>
#include <stddef.h>

enum { PATTERN_MOST = 16 };
enum pattern { PATTERN_STAR, PATTERN_SPIRAL, PATTERN_LINE };

const char *pattern_name(enum pattern p);
bool pattern_find(const char *name, size_t len, enum pattern *out);
/* Positions 1 to count, clockwise round a circle (star) or along a row or two
 * rows (spiral, line), in tightening order. 3 to 16 fasteners; false else.
 * Star: each next one as nearly opposite to the last as the open places allow.
 * Spiral: from the middle of the row outwards, sides by turns. */
bool pattern_order(enum pattern p, int count, int order[PATTERN_MOST]);

#endif

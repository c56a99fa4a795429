/* pattern.h - the order in which the fasteners of one joint are tightened. */
#ifndef PATTERN_H
#define PATTERN_H

#include <stdbool.h>
#include <stddef.h>

enum { PATTERN_LEAST = 3, PATTERN_MOST = 16 };
enum pattern {
    PATTERN_STAR,   /* round a circle: places numbered clockwise from 1 */
    PATTERN_SPIRAL, /* along a row, from the middle outwards, sides by turns */
    PATTERNS
};

const char *pattern_name(enum pattern p); /* "star", "spiral" */
bool pattern_find(const char *name, size_t len, enum pattern *out);
/* Places in tightening order; false unless 3 to 16 fasteners. Star: pairs as
 * nearly opposite as the open places allow, each new pair as far as can be from
 * those already tight. Source: common practice, no source. */
bool pattern_order(enum pattern p, int count, int order[PATTERN_MOST]);

#endif

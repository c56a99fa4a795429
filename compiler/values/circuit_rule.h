/* circuit_rule.h - a requirement of one part of a circuit. */
#ifndef CIRCUIT_RULE_H
#define CIRCUIT_RULE_H

#include "values/circuit_solve.h"
#include "values/requirement.h"

/* By the name of its rule, at the line of the part: at most, common practice;
 * what it compares is left to the caller. */
struct requirement circuit_rule(const struct circuit_work *w, size_t part,
                                const char *name);

#endif

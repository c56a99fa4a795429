/* circuit_rule.c - a requirement of one part of a circuit. */
#include "values/circuit_rule.h"

#include "source/circuit_tree.h"

struct requirement circuit_rule(const struct circuit_work *w, size_t part,
                                const char *name) {
    return (struct requirement){.block = w->b,
                                .variant = w->variant,
                                .rule = name,
                                .part = w->part[part].name,
                                .relation = RELATION_AT_MOST,
                                .source = "common practice, no source",
                                .at = w->part[part].element->at};
}

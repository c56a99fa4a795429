/* wired.c - what the circuits of a guide expose a person to. */
#include "checks/wired.h"

#include "source/circuit_tree.h"
#include "source/tree.h"
#include "values/range.h"

#include <math.h>

static double highest(const struct values *v, const struct block *b,
                      const char *name) {
    const struct named *n = values_of(v, b, name);
    const struct variant *list;
    size_t count = values_variants(v, &list);
    double most = NAN;
    for (size_t i = 0; n != NULL && i < count; i++)
        if ((values_applies(v) >> i & 1) != 0 &&
            n->by_variant[i].type == VALUE_QUANTITY)
            most = fmax(most, range_ends(n->by_variant[i].quantity).high);
    return most;
}

double wired_supply_volt(const struct values *v, const struct block *supply) {
    return fmax(highest(v, supply, "resting"), highest(v, supply, "charging"));
}

double wired_volt(const struct values *v, const struct block *circuit) {
    double most = NAN;
    for (size_t i = 0; i < circuit->circuit->supply_count; i++) {
        const struct block *supply = values_block(
            v, circuit->scope, circuit->circuit->supply[i].name, "supply");
        if (supply != NULL)
            most = fmax(most, wired_supply_volt(v, supply));
    }
    return most;
}

bool wired_names_supply(const struct block *circuit, struct text supply) {
    for (size_t i = 0; i < circuit->circuit->supply_count; i++)
        if (text_equal(circuit->circuit->supply[i].name, supply))
            return true;
    return false;
}

bool wired_names_load(const struct block *circuit, struct text load) {
    const struct circuit *c = circuit->circuit;
    for (size_t i = 0; i < c->element_count; i++)
        if (c->element[i].part == CIRCUIT_LOAD &&
            c->element[i].word_count > 0 &&
            text_equal(c->element[i].word[0], load))
            return true;
    return false;
}

/* wired.c - what the circuits of a guide expose a person to. */
#include "checks/wired.h"

#include "source/circuit_tree.h"
#include "source/tree.h"
#include "values/range.h"

#include <math.h>

double wired_supply_volt(const struct values *v, const struct block *supply) {
    return fmax(values_highest(v, supply, "resting"),
                values_highest(v, supply, "charging"));
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

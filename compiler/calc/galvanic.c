/* galvanic.c - two metals in one joint. */
#include "calc/galvanic.h"
#include "calc/word.h"

#include <math.h>

/* Anodic index of the MIL-STD-889 / MIL-F-14072 kind, V below gold: a public
 * copy down to 0.75 V, from memory below. Groups: MIL-HDBK-419A vol. II Table
 * 1-24 (D from memory). */
static const struct metal metals[] = {
    {"gold", 0.00, 'D', true},
    {"silver", 0.15, 'D', true},
    {"nickel", 0.30, 'C', true},
    {"titanium", 0.30, 'D', true},
    {"copper", 0.35, 'D', true},
    {"brass", 0.40, 0, true},
    {"bronze", 0.40, 0, true},
    {"stainless steel", 0.50, 'C', true},
    {"chromium plated", 0.60, 'C', true},
    {"tin plated", 0.60, 'B', true},
    {"tinned copper", 0.60, 'B', true},
    {"solder", 0.65, 'B', true},
    {"lead", 0.70, 'B', true},
    {"aluminium 2000 series", 0.75, 'A', true},
    {"steel", 0.85, 'B', false},
    {"cast iron", 0.85, 'B', false},
    {"aluminium", 0.90, 'A', false},
    {"cast aluminium", 0.95, 'A', false},
    {"cadmium plated", 0.95, 'A', false},
    {"galvanised steel", 1.20, 'A', false},
    {"zinc plated", 1.25, 'A', false},
    {"zinc", 1.25, 'A', false},
    {"magnesium", 1.75, 0, false},
};
enum { METALS = sizeof metals / sizeof metals[0] };

const struct metal *metal_find(const char *name, size_t len) {
    for (size_t i = 0; i < METALS; i++)
        if (word_is(name, len, metals[i].name))
            return &metals[i];
    return NULL;
}

const struct metal *metal_at(size_t index) {
    return index < METALS ? &metals[index] : NULL;
}

const char *metal_source(void) {
    return "anodic index of MIL-STD-889 / MIL-F-14072, public copy, from 0.85 "
           "V "
           "on from memory; groups of MIL-HDBK-419A Table 1-24";
}

#define RULE "anodic-index rule of thumb, two public copies"
static const struct exposure exposures[] = {
    {"harsh", 0.15, RULE ": outdoors, humid, salt"},
    {"normal", 0.25, RULE ": unheated store"},
    {"controlled", 0.50, RULE ": controlled temperature and humidity"},
};
enum { EXPOSURES = sizeof exposures / sizeof exposures[0] };

const struct exposure *exposure_find(const char *name, size_t len) {
    for (size_t i = 0; i < EXPOSURES; i++)
        if (word_is(name, len, exposures[i].name))
            return &exposures[i];
    return NULL;
}

const struct exposure *exposure_at(size_t index) {
    return index < EXPOSURES ? &exposures[index] : NULL;
}

struct galvanic_pair galvanic_compare(const struct metal *a,
                                      const struct metal *b,
                                      const struct exposure *e) {
    double difference = fabs(a->index - b->index);
    const struct metal *wastes = a->index > b->index ? a : b;
    return (struct galvanic_pair){
        .difference = difference,
        .wastes = difference > 1e-9 ? wastes : NULL,
        .allowed = difference <= e->most + 1e-9,
        .same_group = a->group != 0 && a->group == b->group,
    };
}

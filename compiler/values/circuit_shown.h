/* circuit_shown.h - what stands beside an element in the drawing of its
 * circuit.
 */
#ifndef CIRCUIT_SHOWN_H
#define CIRCUIT_SHOWN_H

#include "source/circuit_tree.h"
#include "values/values.h"

struct circuit_piece; /* values/circuit_part.h */

/* Over a set of variants: wires and ratings "10 AWG 1.9 m to 2.4 m; mark 3: 8
 * AWG 3.4 m" where they differ, currents "4 A to 5 A". NULL: it has no such
 * figure, or it could not be read. */
struct circuit_shown {
    const char *size;   /* of a wire, with its length: "10 AWG 2.5 m" */
    const char *rating; /* of a fuse, breaker, switch, contact: "30 A" */
    const char *colour; /* of a fuse whose style it says: "red" */
    const char *takes;  /* of a load or coil: the current that it states,
                           "8.8 A", or the resistance, "10 Ω" */
};

/* A point as it is printed: "house −". */
const char *circuit_shown_point(struct arena *a, const struct circuit_point *p);
/* The name of a load block: "heater fan" of heater.fan. */
const char *circuit_shown_load(struct arena *a, struct text name);
/* V, of a point in the first state at the nominal figures; NAN: it is not there
 * in the variant, there is no solution, or it hangs on a motor that takes
 * nobody knows what (circuit_starved.h). */
double circuit_shown_voltage(const struct values *v, const struct block *b,
                             size_t point, size_t variant);
/* How a switch or a contact stands in the first state, as all of these variants
 * have it: at rest, or as its coil or its state has moved it. */
bool circuit_shown_moved(const struct values *v, const struct block *b,
                         size_t element, variant_set set);
/* "10 Ω": what a load or a coil states as its resistance; NULL: nothing. */
const char *circuit_shown_resistance(struct arena *a,
                                     const struct circuit_piece *p);

/* Alternatives of a line that differ in figures only are drawn as one element:
 * the first of them, and the next behind `element`; SIZE_MAX: no more. */
size_t circuit_shown_first(const struct circuit *c, size_t element);
size_t circuit_shown_next(const struct circuit *c, size_t first,
                          size_t element);
/* `element`: such a first one. */
struct circuit_shown circuit_shown(const struct values *v, struct arena *a,
                                   const struct block *b, size_t element,
                                   variant_set set);

#endif

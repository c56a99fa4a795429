/* seat.h - the pressure under a head or nut, and what the seat bears. */
#ifndef SEAT_H
#define SEAT_H

#include "calc/calculation.h"
#include "calc/thread.h"

#include <stddef.h>

/* Largest pressure under the head, Pa. All from memory. */
struct seat {
    const char *material; /* "steel", "aluminium", "glass-reinforced plastic" */
    double pressure;
    const char *source;
};
const struct seat *seat_find(const char *material, size_t len);
const struct seat *seat_at(size_t index); /* NULL past the end */

/* `fixed`: what presses. */
struct seated {
    double face; /* m, outer diameter of the washer face, or of the washer */
    double hole; /* m */
};
/* Hexagon head on a medium hole (ISO 4014, ISO 273); false where the tables
 * have no row for the thread. */
bool seat_hexagon(const struct thread *t, struct seated *out);

enum seat_result {
    /* Pa: p = F/(pi/4 (dw^2 - dh^2)). F */
    SEAT_PRESSURE,
    /* N: preload that presses the seat at p. p */
    SEAT_LOAD,
    SEAT_RESULTS
};
/* NAN unless the face is larger than the hole. */
const struct calculation *seat_calculation(enum seat_result r);

#endif

/* schematic_part.h - the symbols of a circuit diagram. */
#ifndef SCHEMATIC_PART_H
#define SCHEMATIC_PART_H

#include "layout/slab.h"

/* Drawn by us after the shapes of IEC 60617 (from memory), standing: the
 * current enters at the middle of the top and leaves at the middle of the
 * bottom. */
enum schematic_symbol {
    SYMBOL_FUSE,
    SYMBOL_BREAKER,
    SYMBOL_SWITCH,
    SYMBOL_SWITCH_CLOSED,
    SYMBOL_CONTACT,
    SYMBOL_CONTACT_CLOSED,
    SYMBOL_REST_CONTACT,
    SYMBOL_REST_CONTACT_OPEN,
    SYMBOL_COIL,
    SYMBOL_DIODE,
    SYMBOL_CONNECTOR,
    SYMBOL_SPLICE,
    SYMBOL_JOINT,
    SYMBOL_LAMP,
    SYMBOL_MOTOR,
    SYMBOL_HEATER,
    SYMBOL_RESISTOR,
    SYMBOL_LOAD,
    SYMBOL_BATTERY,
    SYMBOL_GENERATOR,
    SYMBOL_CONVERTER,
    SCHEMATIC_SYMBOLS
};

/* What the key calls it: "fuse". */
const char *schematic_symbol_name(enum schematic_symbol s);
/* Into a square with this side. `up`: the current enters at the bottom. */
void schematic_symbol_draw(const struct composer *c, struct slab *s,
                           enum schematic_symbol symbol, double x, double y,
                           double side, bool up);

#endif

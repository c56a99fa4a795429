/* kind_circuit.c - the kind of block that holds a circuit. Its fields are named
 * after its own elements and points, so they are not in a table. */
#include "source/kind_tables.h"

static const struct setting circuit_settings[] = {
    {"supply", SETTING_TEXT, NULL, NULL,
     "supplies and their voltages: battery charging", .repeats = true},
    {"state", SETTING_TEXT, NULL, NULL,
     "a name, then what differs: off, K1 open", .repeats = true},
    {"as found", SETTING_YES_NO, NULL, NULL,
     "yes: what a vehicle came with; its wires are not judged", false, false},
    {"drop limit", SETTING_DROP, "V", NULL,
     "the most that each load may lose: 0.4 V, 3 %, 3 % of 13.8 V", false,
     false},
    {0},
};

const struct kind kind_circuit = {
    KIND_CIRCUIT,
    "circuit",
    "a wire list: paths from point to point, solved and drawn",
    NAME_REQUIRED,
    KIND_HOLDS_SETTINGS | KIND_HOLDS_ELEMENTS | KIND_IN_GUIDE | KIND_IN_SHARED,
    circuit_settings,
    NULL,
    NULL,
};

static const struct setting sheet_settings[] = {
    {"of", SETTING_BLOCKS, NULL, "circuit", "the circuits, one or more",
     .required = true},
    {"show", SETTING_CHOICE, NULL, "wires|loads|readings|faults",
     "the wire list; the load sheet; the readings to expect in a test; where "
     "to look for a fault",
     .required = true},
    {"state", SETTING_TEXT, NULL, NULL, "of the circuit; absent: its first",
     false, false},
    {"title", SETTING_PROSE, NULL, NULL, "printed above it", false, false},
    {0},
};

const struct kind kind_sheet = {
    KIND_SHEET,
    "sheet",
    "a table that a circuit gives by itself",
    NAME_NONE,
    KIND_HOLDS_SETTINGS | KIND_PRINTS_TABLE | KIND_IN_GUIDE | KIND_IN_SHARED,
    sheet_settings,
    NULL,
    NULL,
};

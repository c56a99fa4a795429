/* contact.c - joints and contacts: resistance, load kinds, studs. */
#include "calc/contact.h"
#include "calc/word.h"

#include <math.h>

#define PRACTICE "common practice, no source"

static const struct contact contacts[] = {
    {"crimp", 0.1e-3, 0.5e-3, 1.5e-3,
     "high end from memory: SAE/USCAR-2, 1.5 mΩ for a 6.3 mm terminal; the "
     "others " PRACTICE},
    {"splice", 0.1e-3, 0.5e-3, 1.5e-3, "as crimp"},
    {"ring", 0.05e-3, 0.2e-3, 1e-3,
     "high end: high-current connection 0.1 V at 100 A, a car repair manual "
     "quoting SAE; the others " PRACTICE},
    {"battery clamp", 0.05e-3, 0.1e-3, 0.5e-3, PRACTICE},
    {"ground joint", 0.05e-3, 0.5e-3, 5e-3,
     "high end: 5 mΩ from device ground to source ground, FAA AC 43.13-1B; "
     "the others " PRACTICE},
    {"tab", 0.5e-3, 1e-3, 3e-3,
     "high end from memory: ISO 8092-2, 3 mV/A for 6.3 mm; the "
     "others " PRACTICE},
    {"bullet", 0.5e-3, 2e-3, 10e-3, PRACTICE},
    {"connector", 1e-3, 3e-3, 10e-3, PRACTICE},
    {"fuse holder", 0.5e-3, 1e-3, 3e-3, PRACTICE},
    {"switch", 2e-3, 10e-3, 30e-3,
     "high end: 0.3 V at 10 A, switch contact, a car repair manual quoting "
     "SAE; the others " PRACTICE},
    {"relay contact", 1e-3, 3e-3, 5e-3,
     "makers' sheets: typically 3 mΩ, at most 50 mV at 10 A"},
};
enum { CONTACTS = sizeof contacts / sizeof contacts[0] };

const struct contact *contact_find(const char *name, size_t len) {
    for (size_t i = 0; i < CONTACTS; i++)
        if (word_is(name, len, contacts[i].name))
            return &contacts[i];
    return NULL;
}

const struct contact *contact_at(size_t index) {
    return index < CONTACTS ? &contacts[index] : NULL;
}

struct contact contact_fuse(double rating) {
    struct contact c = {"fuse", NAN, NAN, NAN, PRACTICE};
    if (rating > 0) {
        c.low = 0.06 / rating;
        c.typical = 0.1 / rating;
        c.high = 0.15 / rating;
    }
    return c;
}

#define RELAY_TEXT                                                             \
    "a maker's micro relay: 30 A resistive, 17 A lamp, 17 A motor"
static const struct contact_load loads[] = {
    {"resistive", 1, RELAY_TEXT},
    {"lamp", 17.0 / 30, RELAY_TEXT},
    {"motor", 17.0 / 30, RELAY_TEXT},
};
enum { LOADS = sizeof loads / sizeof loads[0] };

const struct contact_load *contact_load_find(const char *kind, size_t len) {
    for (size_t i = 0; i < LOADS; i++)
        if (word_is(kind, len, loads[i].kind))
            return &loads[i];
    return NULL;
}

const struct contact_load *contact_load_at(size_t index) {
    return index < LOADS ? &loads[index] : NULL;
}

double contact_voltage_share(double volt) {
    if (volt <= 16)
        return 1;
    return volt <= 32 ? 0.5 : NAN;
}

/* Current: a terminal-board maker's table. Holes: from memory, DIN 46234. */
#define BOARD "a terminal-board maker's table; hole from memory: DIN 46234"
static const struct stud studs[] = {
    {"M3", NAN, NAN, 3.2e-3, BOARD}, {"M4", 16, 35, 4.3e-3, BOARD},
    {"M5", 25, 75, 5.3e-3, BOARD},   {"M6", 63, 125, 6.5e-3, BOARD},
    {"M8", 100, 150, 8.4e-3, BOARD}, {"M10", 160, 200, 10.5e-3, BOARD},
    {"M12", 250, 350, 13e-3, BOARD}, {"M16", NAN, 500, 17e-3, BOARD},
};
enum { STUDS = sizeof studs / sizeof studs[0] };

const struct stud *stud_find(const char *name, size_t len) {
    for (size_t i = 0; i < STUDS; i++)
        if (word_is(name, len, studs[i].name))
            return &studs[i];
    return NULL;
}

const struct stud *stud_at(size_t index) {
    return index < STUDS ? &studs[index] : NULL;
}

/* contact.c - joints and contacts: resistance, load kinds, studs. */
#include "calc/contact.h"
#include "calc/word.h"

#include <math.h>

#define PRACTICE "common practice, no source"

#define ALARM                                                                  \
    "high end: car makers call 0.5 V to 1 V across one connector or switch a " \
    "fault, here 0.5 V at 10 A; the others " PRACTICE
#define BEYOND "between sound and a fault: " PRACTICE

static const struct contact contacts[] = {
    {"crimp",
     {0.1e-3, 0.5e-3, 1.5e-3,
      "high end from memory: SAE/USCAR-2, 1.5 mΩ for a 6.3 mm terminal; the "
      "others " PRACTICE},
     {1e-3, 3e-3, 20e-3, BEYOND}},
    {"splice",
     {0.1e-3, 0.5e-3, 1.5e-3, "as crimp"},
     {1e-3, 5e-3, 30e-3,
      "high end: 0.3 V at 10 A, a truck maker's allowance for a splice; the "
      "others " PRACTICE}},
    {"ring",
     {0.05e-3, 0.2e-3, 1e-3,
      "high end: high-current connection 0.1 V at 100 A, a car repair manual "
      "quoting SAE; the others " PRACTICE},
     {0.5e-3, 2e-3, 10e-3,
      "high end: 0.1 V at 10 A, a truck maker's allowance for a connection; "
      "the others " PRACTICE}},
    {"battery clamp",
     {0.05e-3, 0.1e-3, 0.5e-3, PRACTICE},
     {0.2e-3, 1e-3, 5e-3, BEYOND}},
    {"ground joint",
     {0.05e-3, 0.5e-3, 5e-3,
      "bare steel; high end: 5 mΩ from device ground to source ground, FAA AC "
      "43.13-1B; the others " PRACTICE},
     {2e-3, 10e-3, 100e-3, "bare steel that rusts: " PRACTICE}},
    {"painted ground",
     {5e-3, 20e-3, 200e-3, "only the thread meets bare steel: " PRACTICE},
     {20e-3, 100e-3, 1, "rust in the thread: " PRACTICE}},
    {"rusted ground",
     {10e-3, 50e-3, 500e-3, "a clean ring on rusted steel: " PRACTICE},
     {20e-3, 100e-3, 1, "ring and steel rusted: " PRACTICE}},
    {"tab",
     {0.5e-3, 1e-3, 3e-3,
      "high end from memory: ISO 8092-2, 3 mV/A for 6.3 mm; the "
      "others " PRACTICE},
     {2e-3, 8e-3, 50e-3, ALARM}},
    {"bullet", {0.5e-3, 2e-3, 10e-3, PRACTICE}, {5e-3, 15e-3, 50e-3, ALARM}},
    {"connector", {1e-3, 3e-3, 10e-3, PRACTICE}, {5e-3, 15e-3, 50e-3, ALARM}},
    {"fuse holder",
     {0.5e-3, 1e-3, 3e-3, PRACTICE},
     {2e-3, 5e-3, 30e-3, BEYOND}},
    {"switch",
     {2e-3, 10e-3, 30e-3,
      "high end: 0.3 V at 10 A, switch contact, a car repair manual quoting "
      "SAE; the others " PRACTICE},
     {10e-3, 40e-3, 100e-3,
      "high end: 1 V at 10 A, a car maker's alarm level; the "
      "others " PRACTICE}},
    {"battery switch",
     {0.05e-3, 0.15e-3, 0.5e-3,
      "from memory: makers' sheets, 50 mV at the rating that lasts, of 100 A "
      "to 300 A"},
     {0.2e-3, 1e-3, 5e-3, BEYOND}},
    {"starter solenoid",
     {0.1e-3, 0.3e-3, 1e-3,
      "high end from memory: 0.2 V allowed at 200 A of a start; the "
      "others " PRACTICE},
     {0.5e-3, 2e-3, 10e-3, PRACTICE}},
    {"relay contact",
     {1e-3, 3e-3, 5e-3,
      "makers' sheets: typically 3 mΩ, at most 50 mV at 10 A"},
     {3e-3, 10e-3, 50e-3,
      "high end: a maker's sheet, at most 50 mΩ at a small test current; the "
      "others " PRACTICE}},
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

static struct contact_range of_volt(double rating) {
    if (!(rating > 0))
        return (struct contact_range){NAN, NAN, NAN, PRACTICE};
    return (struct contact_range){0.06 / rating, 0.1 / rating, 0.15 / rating,
                                  PRACTICE};
}

struct contact contact_fuse(double rating) {
    struct contact_range r = of_volt(rating);
    return (struct contact){"fuse", r, r};
}

static struct contact_range add(struct contact_range a,
                                struct contact_range b) {
    return (struct contact_range){a.low + b.low, a.typical + b.typical,
                                  a.high + b.high, PRACTICE};
}

struct contact contact_fuse_held(double rating) {
    const struct contact *holder = contact_find("fuse holder", 11);
    struct contact_range r = of_volt(rating);
    return (struct contact){"fuse in its holder", add(r, holder->sound),
                            add(r, holder->aged)};
}

static struct contact_range twice(struct contact_range r, double most) {
    return (struct contact_range){fmin(2 * r.low, most),
                                  fmin(2 * r.typical, most),
                                  fmin(2 * r.high, most), PRACTICE};
}

struct contact contact_fuse_bolted(double rating) {
    const struct contact *ring = contact_find("ring", 4);
    struct contact_range r = of_volt(rating);
    return (struct contact){"fuse between its studs",
                            add(r, twice(ring->sound, 0.1 / rating)),
                            add(r, twice(ring->aged, INFINITY))};
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
